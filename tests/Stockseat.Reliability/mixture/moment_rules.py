"""Rules about the clients' own times.

What was in force while a client got OK, and when the stock of an answer was measured.
"""
import bisect
import collections

# The time from a gauge's sending to the service's reading of a line, or between two clients' readings of a counter.
SLACK = 0.5
UNDECIDED = ("too-busy", "ledger-unavailable", "internal-failure")


class Window:
    """Which entries certainly existed before a request was sent, and which certainly came after its reply."""

    def __init__(self, events):
        ids = collections.Counter((e.client, e.request) for e in events if e.request)
        known = [e for e in events if e.ok and e.verb != "reading" and "serial" in e.fields]
        self._done, self._least = self._running(sorted((e.done, e.serial) for e in known), max)
        # An outcome that is returned again was written before this request was sent.
        once = [e for e in known if not e.request or ids[(e.client, e.request)] == 1]
        self._sent, self._most = self._running(sorted((-e.sent, e.serial) for e in once), min)
        self._serials, self._written = self._running(sorted((e.serial, e.sent) for e in once), max)

    def least(self, at):
        """The last entry that certainly existed at an instant."""
        found = bisect.bisect_left(self._done, at)
        return self._least[found - 1] if found else 0

    def most(self, at, last):
        """The last entry that may have existed at an instant."""
        found = bisect.bisect_left(self._sent, -at)
        return self._most[found - 1] - 1 if found else last

    def written(self, serial):
        """An instant after which an entry was certainly written: an entry before it was asked for at that instant."""
        found = bisect.bisect_left(self._serials, serial)
        return self._written[found - 1] if found else 0

    @staticmethod
    def _running(pairs, better):
        times, values = [], []
        for time, serial in pairs:
            times.append(time)
            values.append(better(values[-1], serial) if values else serial)
        return times, values


def faults(events, replay):
    window = Window(events)
    last = max(replay.bodies, default=0)
    for event in events:
        if event.ok and event.fixture:
            states = replay.between(event.fixture, window.least(event.sent), window.most(event.done, last))
            yield from _in_force(event, states)
    arrivals = _arrivals(events, replay)
    yield from _late_readings(events, replay, arrivals, window)
    yield from _true_ages(events, replay, arrivals, window)
    yield from _doubtful(events, replay, window)


def _in_force(event, states):
    """OK means that it is true now, even when a request id is used again."""
    by = event.asked.get("by")
    told = f"{event.client} got the reply (entry {event.serial}) that"
    if event.verb == "hold" and not any(by in s.holds for s in states):
        yield "ok-not-in-force", f"{told} {by} holds {event.fixture}, but there was no such hold then"
    if event.verb == "release" and all(event.asked["of"] in s.holds for s in states):
        yield "ok-not-in-force", f"{told} the hold of {event.asked['of']} on {event.fixture} is released, but the hold existed then"
    if event.verb == "emptied" and all(s.measurement for s in states):
        yield "ok-not-in-force", f"{told} {event.fixture} is emptied, but measurement {states[0].measurement} was valid then"
    if event.verb == "measured" and not any(s.measurement == event.serial for s in states):
        yield "ok-not-in-force", f"{told} the measurement of {event.fixture} is recorded, but it was not valid then"
    if event.verb == "adopt" and not any(s.revision == event.asked["revision"] for s in states):
        yield "ok-not-in-force", f"{told} revision {event.asked['revision']} of {event.fixture} is adopted, but it was not in force then"
    if event.verb == "locate" and not any(not s.holds and str(s.revision) == event.fields["revision"] for s in states):
        yield "ok-not-in-force", f"{event.client} got answer {event.serial} of {event.fixture} while it was held, or of a revision that was not in force"
    if event.verb == "locate" and "measurement" in event.fields and not any(str(s.measurement) == event.fields["measurement"] for s in states):
        yield "ok-not-in-force", f"{event.client} got answer {event.serial} from measurement {event.fields['measurement']}, which was not valid then"


def _arrivals(events, replay):
    """When the first and last reading of each measurement were sent, at the earliest: a gauge sends each value once."""
    sent = {}
    for event in events:
        if event.verb == "reading":
            sent[(event.client, round(event.asked["metres"], 9))] = event.sent
    arrivals = {}
    for serial, body in replay.bodies.items():
        if body["kind"] == "measurement":
            times = [sent[key] for key in ((body.get("client"), round(r, 9)) for r in body["readings"]) if key in sent]
            if times:
                arrivals[serial] = min(times)
    return arrivals


def _late_readings(events, replay, arrivals, window):
    """What voids a measurement also voids the readings that wait to become one."""
    voids, ids = collections.defaultdict(list), set()
    for event in events:
        retried = event.request and (event.client, event.request) in ids  # the event may have begun before the client sent it
        ids.add((event.client, event.request))
        if event.ok and not retried and event.serial in replay.bodies and _begins(event, replay):
            voids[event.fixture].append(event)
    used = collections.defaultdict(list)
    for body in replay.bodies.values():
        if body["kind"] == "answer" and "measurement" in body:
            used[body["measurement"]].append(body["serial"])
    for serial, arrived in arrivals.items():
        measured = replay.bodies[serial]
        for void in voids[measured["fixture"]]:
            if void.serial < serial and void.sent > arrived + SLACK:
                yield "late-readings", (
                    f"measurement {serial} of {measured['fixture']} has a reading that came {void.sent - arrived:.2f} s"
                    f" before {void.verb} of entry {void.serial} was sent;"
                    f" answers that use it: {used[serial] or 'none'}")
                break
        waited = window.written(serial) - arrived
        if waited > 2 and measured.get("waited", 0) < waited - 1:
            said = measured.get("waited", 0)
            yield "waited", f"measurement {serial} says that it waited {said} s; its first reading came at least {waited:.2f} s before its entry"


def _begins(event, replay):
    """Whether it voids waiting readings. A repeated hold by the same name is the old hold."""
    if event.verb == "hold":
        return event.asked["by"] not in replay.before(event.fixture, event.serial).holds
    return event.verb in ("emptied", "adopt")


def _true_ages(events, replay, arrivals, window):
    """Judged by the counter, which no clock step moves, with the tolerance in README.md.

    The tolerance is a second, a 2000th of the time, and a second for each start.
    """
    pushed = {e.serial: e.done for e in events if e.ok and e.verb == "measured" and not e.request}
    for event in events:
        if not (event.ok and event.verb == "locate" and "measurement" in event.fields):
            continue
        serial = int(event.fields["measurement"])
        known, measured = pushed.get(serial, arrivals.get(serial)), replay.bodies.get(serial, {})
        if known is None or "freshFor" not in measured:
            continue
        age = event.sent - known
        starts = bisect.bisect_left(replay.starts, window.most(event.done, event.serial)) - bisect.bisect_left(replay.starts, serial)
        if age > measured["freshFor"] + 1 + age / 2000 + max(0, starts) + SLACK:
            yield "true-age", f"answer {event.serial} was asked for {age:.2f} s after measurement {serial}, which is fresh for {measured['freshFor']} s"


def _doubtful(events, replay, window):
    """After a push that was refused without a decision, nobody knows whether the measured stock is still there."""
    refused, pushed = collections.defaultdict(list), {}
    for order, event in enumerate(events):
        if event.verb == "measured" and event.ok and event.via == "line":
            pushed[event.serial] = (event.client, event.connection, order)
        if event.verb == "measured" and event.verdict == "refused" and event.reason in UNDECIDED:
            refused[event.fixture].append((event.done, order, event))
    for pushes in refused.values():
        pushes.sort(key=lambda p: p[:2])
    for event in events:
        if not (event.ok and event.verb == "locate" and "measurement" in event.fields):
            continue
        pushes, used = refused[event.fixture], int(event.fields["measurement"])
        last = bisect.bisect_left(pushes, event.sent, key=lambda p: p[0])
        for _, order, push in pushes[max(0, last - 3):last]:
            before = window.least(push.sent)
            # On one connection the request that was sent first is decided first.
            client, connection, sooner = pushed.get(used, ("", 0, 0))
            older = used <= before or ((client, connection) == (push.client, push.connection) and sooner < order)
            restarted = any(before < start < event.serial for start in replay.starts)  # a refusal that was not written is not known afterwards
            if older and event.serial > before and not restarted:
                yield "doubtful", (
                    f"answer {event.serial} of {event.fixture} uses measurement {used}, though {event.sent - push.done:.2f} s before it was asked for"
                    f" a newer push was refused without a decision ({push.reason}, tag {push.tag})")
                break
