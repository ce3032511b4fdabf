"""The state after each entry, from the entries alone, as README.md and proto/README.md describe it."""
import bisect
import dataclasses
import datetime

# A push without permission voids nothing, and an unknown fixture has nothing to void.
VOIDS_NOTHING = ("not-permitted", "fixture-unknown")


def _is_older(body):
    """Readings from before those of the valid measurement: the push is refused, and nothing becomes void."""
    return body["reason"] == "measurement-stale" and "measurement" in body


def instant(text):
    return datetime.datetime.fromisoformat(text.replace("Z", "+00:00")).timestamp()


@dataclasses.dataclass(frozen=True)
class State:
    """The state of one fixture."""

    revision: int = 0
    digest: str = ""
    adopted_by: int = 0
    first_above: float = 0.0
    measurement: int = 0  # the serial of the valid measurement; 0: none is valid
    holds: tuple = ()  # the names of those who hold it
    pick: tuple = ()  # the shift that was carried out last
    place: tuple = ()
    nests: frozenset = frozenset()  # the purposes and nests that were carried out

    def done(self, purpose):
        return self.place if purpose == "place" else self.pick


class Replay:
    """Walks all entries once; keeps each fixture's states with the serials from which they apply."""

    def __init__(self, ledgers):
        self.bodies = {}
        self.states = {}  # fixture: the serials from which its states apply, and those states
        self.steps_back = []
        self.starts = []
        for ledger in ledgers:
            for row in ledger.rows:
                self.bodies[row.serial] = row.body
                self._apply(row.body)

    def before(self, fixture, serial):
        """The state when an entry was decided."""
        return self.at(fixture, serial - 1)

    def at(self, fixture, serial):
        """The state after an entry."""
        since, states = self.states.get(fixture, ([], []))
        found = bisect.bisect_right(since, serial)
        return states[found - 1] if found else State()

    def between(self, fixture, least, most):
        """Each state that applied right after entry `least` or after one of the following entries up to `most`."""
        since, states = self.states.get(fixture, ([], []))
        return [self.at(fixture, least)] + states[bisect.bisect_right(since, least):bisect.bisect_right(since, most)]

    def stepped_back(self, after, until):
        return any(after < serial < until for serial in self.steps_back)

    def _apply(self, body):
        kind, serial = body["kind"], body["serial"]
        if kind == "clock-step" and body["seconds"] < 0:
            self.steps_back.append(serial)
        if kind == "service-started":
            self.starts.append(serial)
        if "fixture" not in body:
            return
        since, states = self.states.setdefault(body["fixture"], ([], []))
        state = states[-1] if states else State()
        after = self._after(state, kind, body)
        if after is not state:
            since.append(serial)
            states.append(after)

    def _after(self, state, kind, body):
        put = lambda **values: dataclasses.replace(state, **values)  # noqa: E731
        serial = body["serial"]
        if kind == "revision-adopted":
            limits = body["content"].get("limits", {})
            return put(revision=body["revision"], digest=body["digest"], adopted_by=serial, first_above=limits.get("firstAbove", 0.0), pick=(), place=(), nests=frozenset())
        if kind == "measurement":
            return put(measurement=serial)
        if kind == "emptied" or (kind == "refusal" and body["asked"] == "measured" and body["reason"] not in VOIDS_NOTHING and not _is_older(body)):
            return put(measurement=0)
        if kind == "held" and body["by"] not in state.holds:
            return put(holds=(*state.holds, body["by"]))
        if kind == "released":
            return put(holds=tuple(by for by in state.holds if by != body["of"]))
        if kind == "confirmation" and body["v"] == 1 and body["confirms"] > state.adopted_by:  # in version 1 a confirmation counted as carried out
            return put(**{body["purpose"]: tuple(body["shiftBase"])}, nests=state.nests | {(body["purpose"], None)})
        if kind == "done" and body["answer"] > state.adopted_by:
            return put(**{body["purpose"]: tuple(body["shiftBase"])}, nests=state.nests | {(body["purpose"], tuple(body["nest"]))})
        return state
