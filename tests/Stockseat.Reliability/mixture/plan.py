"""What every actor does, from a seed alone: the same seed gives the same plan. The replies differ each time."""
import hashlib
import random

FIXTURES = ("pinbed-1", "veerack-2", "rollers-3")
# The diameters that each fixture allows, in mm.
SIZES = {"pinbed-1": (70, 95), "veerack-2": (60, 90), "rollers-3": (70, 95)}
FAULTS = ("kill", "stop", "roll", "clock-back", "clock-forward", "outage", "late-readings", "half-collected", "same-hold", "same-emptied", "hasty-pushes")
# The least time that a fault takes, in s: a plan has as many faults as fit.
PAUSE = (0.5, 2.5)
# Each of these at least once, and first, since the documents make promises about them.
SURE = ("late-readings", "half-collected", "same-hold", "same-emptied", "hasty-pushes", "kill", "roll", "clock-back", "outage", "clock-forward", "stop")


class Steps:
    """An endless list of one actor's steps."""

    def __init__(self, seed, name):
        self._random, self._number, self.name = random.Random(f"{seed}/{name}"), 0, name

    def pick(self, *values):
        return self._random.choice(values)

    def chance(self, part):
        return self._random.random() < part

    def pause(self, longest):
        return self._random.random() * longest

    def tag(self):
        self._number += 1
        return f"{self.name}-{self._number}"

    def diameter(self, fixture):
        """With four decimals of a millimetre, so that no two are the same by accident."""
        least, most = SIZES[fixture]
        return f"{self._random.uniform(least, most):.4f}"

    def near(self, diameter):
        return f"{float(diameter) + self._random.uniform(-0.04, 0.04):.4f}"

    def controller(self):
        """A few lines at once, as (line, what it asks); confirm and read-back follow when the answers have come."""
        lines = []
        for _ in range(self.pick(1, 1, 1, 2, 4, 8)):
            fixture = self.pick(*FIXTURES)
            if self.chance(0.04):
                lines.append(("emptied", fixture, ""))
            elif self.chance(0.3):
                purpose = self.pick("pick", "place")
                lines.append(("locate", fixture, f"diameter={self.diameter(fixture)}mm purpose={purpose} nest={self.pick('0,0', '1,0')}"))
            else:
                lines.append(("locate", fixture, self.pick("", "", "lot=A1077" if fixture == "pinbed-1" else "")))
        return [(verb, fixture, rest, self.tag()) for verb, fixture, rest in lines], self.chance(0.5), self.pause(0.15)

    def gauge(self):
        """One push."""
        fixture = self.pick(*FIXTURES)
        diameter = self.diameter(fixture)
        if fixture == "pinbed-1" and self.chance(0.4):
            return fixture, f"diameter={92.3 + self.pause(0.19):.4f}mm gauge=bench-2 lot=A1077", self.tag(), self.pause(0.6)
        if self.chance(0.15):
            return fixture, f"diameter={diameter}mm gauge=nobodys", self.tag(), self.pause(0.3)  # refused, and the measurement before it becomes void
        readings = f"diameters={diameter}mm,{self.near(diameter)}mm" if self.chance(0.5) else f"diameter={diameter}mm"
        return fixture, f"{readings} gauge={self.pick('bench-2', 'bench-3')}", self.tag(), self.pause(0.6)

    def setter(self):
        """One thing that the setter does over gRPC, with one of a few request ids: some are used again on purpose."""
        verb = self.pick("hold", "release", "hold", "release", "adopt", "emptied", "measured", "lot", "locate")
        fixture, by = self.pick(*FIXTURES), self.pick("early setter", "late setter")
        return verb, fixture, by, self.pick("", f"{verb}-{self.pick(1, 2, 3)}"), self.pause(0.5), self.diameter(fixture)

    def reading(self, fixture):
        """One measurement's readings, with a pause between."""
        diameter = self.diameter(fixture)
        return [diameter, self.near(diameter)], self.pause(0.4), self.pause(1.2)


def faults(seed, seconds):
    """The faults in order, as (kind, pause before, a random number)."""
    chooser = random.Random(f"{seed}/faults")
    sure = list(SURE)
    chooser.shuffle(sure)
    spent, plan = 0.0, []
    while spent < seconds or len(plan) < len(sure):
        kind = sure[len(plan)] if len(plan) < len(sure) else chooser.choice(FAULTS)
        pause = chooser.uniform(*PAUSE)
        plan.append((kind, pause, chooser.random()))
        spent += pause  # the time that the faults themselves take is not counted: the time limit ends the plan
    return plan


def fingerprint(seed, seconds):
    """A fingerprint of a plan, with the first steps of every actor: the same for the same seed."""
    said = [repr(faults(seed, seconds))]
    for name, step in (("lathe", "controller"), ("gauge", "gauge"), ("setter", "setter")):
        steps = Steps(seed, name)
        said += [repr(getattr(steps, step)()) for _ in range(200)]
    return hashlib.sha256("\n".join(said).encode()).hexdigest()[:16]
