"""The faults, one after another, each as the plan says."""
import collections
import time

from plan import SIZES
from talking import Line, Office
from world import HASTY_RATE

GRACE = 10


class Conductor:
    """Carries out the faults of a plan, and sequences that would reveal a wrongly used old diameter or id."""

    def __init__(self, world, history, gauges, stubs, actors):
        self.world, self.history, self.gauges, self.actors = world, history, gauges, actors
        self.office = Office(world, history, stubs)
        self.lathe, self.station, self.hasty = (Line(world, history, name) for name in ("lathe-1", "gauge-station", "hasty-gauge"))
        self.happened, self.faults, self._number = collections.Counter(), [], 0

    def run(self, plan, seconds):
        until = time.monotonic() + seconds
        for count, (kind, pause, number) in enumerate(plan):
            if time.monotonic() > until and count >= 11:
                break
            time.sleep(pause)
            if getattr(self, f"_{kind.replace('-', '_')}")(number) is not False:
                self.happened[kind] += 1
        for line in (self.lathe, self.station, self.hasty):
            line.close()
        self.office.close()

    def _tag(self):
        self._number += 1
        return f"c-{self._number}"

    def _say(self, line, verb, fixture, rest=""):
        return line.say(line.ask(verb, fixture, rest, self._tag()))[0]

    def _until(self, wanted, line, verb, fixture, rest=""):
        """Sends it again and again until the expected reply comes back; false when it never did."""
        until = time.monotonic() + GRACE
        while time.monotonic() < until:
            event = self._say(line, verb, fixture, rest)
            if wanted(event):
                return True
            time.sleep(0.02)
        self.faults.append(("no-recovery", f"{verb} of {fixture} was not answered as expected within {GRACE} s; the last reply was: {event.line or 'none'}"))
        return False

    def _stated(self, wanted):
        """An ask that needs no measurement."""
        return self._until(wanted, self.lathe, "locate", "rollers-3", "diameter=80.20mm")

    def _again(self):
        # A held fixture stays held: any entry shows that the service writes again.
        return self._stated(lambda e: e.ok or (e.verdict == "refused" and e.fields.get("class") != "service"))

    def _kill(self, number):
        time.sleep(number / 10)
        self.world.end(kill=True)
        self.world.start()
        self._again()

    def _stop(self, _):
        code = self.world.end(kill=False)
        if code != 0:
            self.faults.append(("stop", f"a clean stop ended with exit code {code}"))
        self.world.start()
        self._again()

    def _roll(self, _):
        self.office.call("roll", sent={"by": "day setter", "why": "the mixture"})

    def _clock_back(self, number):
        return self._step(-2 - 20 * number)

    def _clock_forward(self, number):
        return self._step(2 + 20 * number)

    def _step(self, seconds):
        if not self.world.faketime:
            return False
        self.world.step_clock(seconds)
        self._again()  # without an ask between the step and the next kill, the step could not be noticed
        return None

    def _outage(self, number):
        if not self.world.has_disk:
            return False
        with self.world.full_disk():
            if not self._stated(lambda e: e.reason == "ledger-unavailable"):
                return False
            self._say(self.station, "measured", "pinbed-1", f"diameter={self._near('pinbed-1', number)}mm gauge=bench-3")
            time.sleep(0.5 + number)
        self._again()
        return None

    def _near(self, fixture, number):
        least, most = SIZES[fixture]
        return f"{least + (most - least) * number:.4f}"

    def _late_readings(self, number):
        """Readings wait for the ledger, and the stock is changed before the ledger is back."""
        gauge = self.gauges["saw-gauge"]
        if not self.world.has_disk:
            return False
        with gauge.turn:
            with self.world.full_disk():
                if not self._stated(lambda e: e.reason == "ledger-unavailable"):
                    return False
                for more in (0.0, 0.0123):
                    gauge.send(f"{70 + 10 * number + more:.4f}")
                time.sleep(1.2)
            self._until(lambda e: e.ok, self.lathe, "emptied", "veerack-2")
            time.sleep(1.6)  # the port tries once a second
            for _ in range(3):
                self._say(self.lathe, "locate", "veerack-2")
        return None

    def _half_collected(self, number):
        """One reading before the stock is changed, the other one after."""
        gauge = self.gauges["saw-gauge"]
        with gauge.turn:
            for more in (0.0, 0.0077, 0.0154):
                if not gauge.send(f"{75 + 10 * number + more:.4f}"):
                    return False
                time.sleep(0.8)
                self._until(lambda e: e.ok, self.lathe, "emptied", "veerack-2")
            self._say(self.lathe, "locate", "veerack-2")
        return None

    def _same_hold(self, _):
        """Hold, release, hold with one id each."""
        name = self._tag()
        hold = lambda: self.office.call("hold", "rollers-3", f"hold-{name}", by="shift lead", why="pins are changed")  # noqa: E731
        release = lambda: self.office.call("release", "rollers-3", f"release-{name}", by="shift lead", of="shift lead", why="done")  # noqa: E731
        for act in (hold, hold, release, release, hold):
            act()
        self._say(self.lathe, "locate", "rollers-3", "diameter=80.10mm")
        release()
        self.office.call("release", "rollers-3", by="shift lead", of="shift lead", why="done")

    def _same_emptied(self, number):
        name = self._tag()
        self.office.call("emptied", "pinbed-1", f"emptied-{name}")
        self._say(self.station, "measured", "pinbed-1", f"diameter={self._near('pinbed-1', number)}mm gauge=bench-3")
        self.office.call("emptied", "pinbed-1", f"emptied-{name}")
        self._say(self.lathe, "locate", "pinbed-1")

    def _hasty_pushes(self, number):
        """More pushes than allowed: the last ones are refused without a decision, and the stock may have changed."""
        size = float(self._near("pinbed-1", number))
        push = lambda more: self.hasty.ask("measured", "pinbed-1", f"diameter={size + more / 100:.4f}mm gauge=bench-3", self._tag())  # noqa: E731
        self._say(self.station, "measured", "pinbed-1", f"diameter={self._near('pinbed-1', number / 2)}mm gauge=bench-3")
        refused = [e for e in self.hasty.say(*(push(i) for i in range(3 * HASTY_RATE))) if e.reason == "too-busy"]
        self._say(self.lathe, "locate", "pinbed-1")
        return bool(refused)
