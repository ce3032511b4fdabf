"""A short history in which no rule is broken, with its ledgers: the self-test falsifies copies of it."""
import copy
import datetime
import json

import ledgers
from history import Event

BEGIN = datetime.datetime(2026, 11, 25, 8, 0, tzinfo=datetime.timezone.utc)
ZERO = [0.0, 0.0, 0.0]
GAUGE, LATHE, OFFICE, SAW = "gauge-station", "lathe-1", "office", "saw-gauge"


class Story:
    """Bodies and events; `ledgers` computes the chain over them, changed or not."""

    def __init__(self):
        self.bodies, self.events, self.rows_doctor, self._serial = [], [], None, 0
        self._tell()

    def copy(self):
        return copy.deepcopy(self)

    def body(self, serial):
        return next(b for b in self.bodies if b["serial"] == serial)

    def event(self, serial, verb=None):
        return next(e for e in self.events if e.fields.get("serial") == str(serial) and verb in (None, e.verb))

    def ledgers(self):
        parts, part = [], []
        for body in self.bodies:
            part.append(body)
            if body["kind"] == "rolled-over" and "next" in body:
                parts.append(part)
                part = []
        found, before_last = [], None
        for number, bodies in enumerate([*parts, part]):
            if number and bodies and bodies[0].get("follows", {}).get("hash") == "":
                bodies[0]["follows"]["hash"] = before_last
            rows, before = [], bytes(32)
            for body in bodies:
                raw = json.dumps(body).encode()
                before = ledgers.digest(before, raw)
                rows.append(ledgers.Row(body["serial"], raw, before))
            before_last = before.hex()
            found.append(ledgers.Ledger(f"ledger {number + 1}", rows))
        if self.rows_doctor:
            self.rows_doctor(found)
        return found

    def log(self, moment, kind, **fields):
        self._serial += 1
        at = (BEGIN + datetime.timedelta(seconds=moment)).isoformat(timespec="microseconds").replace("+00:00", "Z")
        body = {"v": 1, "serial": self._serial, "at": at, "kind": kind, **fields}
        self.bodies.append(body)
        return body

    def told(self, body, verb, seconds, request="", asked=None):
        """The event that goes with an entry, with its reply in lines."""
        event = Event(body["client"], verb, seconds - 0.1, body.get("fixture", ""), tag=body.get("tag", ""), request=request, asked=asked or {})
        event.answered(reply_to(body, verb))
        event.done = seconds + 0.1
        event.via = "grpc" if body["client"] == OFFICE else "line"
        self.events.append(event)
        return event

    def _tell(self):
        self.log(0, "service-started", ledger="one")
        self.log(0, "revision-adopted", fixture="pinbed-1", revision=3, digest="d3", content={"limits": {"firstAbove": 0.0001}})
        self.push(10, "g-1", 0.0900)
        self.locate(11, "l-1", 3, first=True)
        self.told(self.log(12, "confirmation", **self.of("l-2"), confirms=4, purpose="pick", shiftBase=[0.0, 0.001, 0.0]), "confirm", 12)
        self.locate(13, "l-3", 3, first=False)
        hold = self.log(20, "held", fixture="pinbed-1", client=OFFICE, by="setter", why="chips", request="h-1")
        self.told(hold, "hold", 20, "h-1", {"by": "setter"})
        release = self.log(25, "released", fixture="pinbed-1", client=OFFICE, by="setter", of="setter", left=0, request="r-1")
        self.told(release, "release", 25, "r-1", {"by": "setter", "of": "setter"})
        self.events += [Event(SAW, "reading", 30.0, asked={"metres": 0.0911}), Event(SAW, "reading", 30.5, asked={"metres": 0.0912})]
        self.log(33.5, "measurement", fixture="pinbed-1", client=SAW, diameter=0.09115, readings=[0.0911, 0.0912], freshFor=60.0, waited=3.5)
        self.locate(35, "l-4", 9, first=False, diameter=0.09115)
        self.told(self.log(40, "emptied", fixture="pinbed-1", client=LATHE, tag="l-5"), "emptied", 40)
        missing = self.log(41, "refusal", fixture="pinbed-1", client=LATHE, tag="l-6", asked="locate", reason="measurement-missing", number=15, text="none")
        self.told(missing, "locate", 41)
        self.log(45, "rolled-over", next="two", by="setter", why="full")
        self.log(45, "rolled-over", ledger="two", follows={"ledger": "one", "last": 13, "hash": ""}, carried=[self.body(2)])
        self.push(50, "g-2", 0.0920)
        self.locate(51, "l-7", 15, first=False, diameter=0.0920)
        busy = Event(GAUGE, "measured", 55.0, "pinbed-1", tag="g-3")
        self.events.append(busy.answered('refused tag=g-3 class=service reason=too-busy text="ask again in a second"'))
        busy.done = 55.1
        late = {"asked": "measured", "reason": "too-busy", "number": 35, "text": "ask again in a second"}
        self.log(55.2, "refusal", fixture="pinbed-1", client=GAUGE, tag="g-3", **late)
        self.push(56, "g-4", 0.0921)
        self.locate(57, "l-8", 18, first=False, diameter=0.0921)
        retry = {"asked": "hold", "reason": "value-malformed", "number": 31, "text": "another request", "retryOf": 7}
        self.log(58, "refusal", fixture="pinbed-1", client=OFFICE, **retry)
        self.log(60, "service-stopped")

    @staticmethod
    def of(tag):
        return {"fixture": "pinbed-1", "revision": 3, "digest": "d3", "client": LATHE, "tag": tag}

    def push(self, seconds, tag, diameter):
        body = self.log(seconds, "measurement", fixture="pinbed-1", client=GAUGE, tag=tag, diameter=diameter, readings=[diameter], freshFor=60.0)
        self.told(body, "measured", seconds)

    def locate(self, seconds, tag, measurement, first, diameter=0.0900):
        measured = self.body(measurement)
        begun = (datetime.datetime.fromisoformat(measured["at"].replace("Z", "+00:00")) - BEGIN).total_seconds() - measured.get("waited", 0)
        body = self.log(
            seconds, "answer", **self.of(tag), purpose="pick", nest=[0, 0], diameter=diameter, measurement=measurement, age=seconds - begun, first=first,
            position=ZERO, orientation=[0.0, 1.0, 0.0, 0.0], shiftBase=[0.0, 0.001, 0.0], shiftOrigin=ZERO, uncertainty={"along": 0.0001, "across": 0.0002})
        self.told(body, "locate", seconds)


def reply_to(body, verb):
    tag = f" tag={body['tag']}" if "tag" in body else ""
    if body["kind"] == "refusal":
        return f'refused{tag} class=cell reason={body["reason"]} text="{body["text"]}"'
    said = f"ok{tag} serial={body['serial']}"
    if verb == "confirm":
        return f"{said} confirms={body['confirms']}"
    if verb != "locate":
        return f"{said} fixture={body['fixture']}" + (f" diameter={body['diameter']:.6f}" if verb == "measured" else "")
    first = "yes" if body["first"] else "no"
    six = lambda names, values: " ".join(f"{n}={v:.6f}" for n, v in zip(names, values, strict=True))  # noqa: E731
    column, row = body["nest"]
    return (f"{said} fixture={body['fixture']} revision={body['revision']} purpose={body['purpose']} nest={column},{row} diameter={body['diameter']:.6f}"
            f" measurement={body['measurement']} age={body['age']:.3f} unit=m first={first} {six('xyz', body['position'])}"
            f" {six(('qw', 'qx', 'qy', 'qz'), body['orientation'])} {six(('bx', 'by', 'bz'), body['shiftBase'])} {six(('ox', 'oy', 'oz'), body['shiftOrigin'])}"
            f" ualong={body['uncertainty']['along']:.6f} uacross={body['uncertainty']['across']:.6f} end")
