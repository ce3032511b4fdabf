"""Compares each entry with the state in which it was decided, made from the entries before it."""
from replay import instant

# How large a clock step may be without a record, and how far an instant may be ahead of the next one.
STEP = 1.05


def faults(replay):
    for body in replay.bodies.values():
        if body["kind"] == "answer":
            yield from _answer(body, replay)
        elif body["kind"] == "refusal" and body["asked"] == "locate":
            yield from _refusal(body, replay)
        elif body["kind"] == "released":
            state = replay.before(body["fixture"], body["serial"])
            if body["of"] not in state.holds or body["left"] != len(state.holds) - 1:
                yield "hold", f"entry {body['serial']} releases {body['of']} and leaves {body['left']}; the holds were {state.holds}"
        elif body["kind"] in ("confirmation", "done"):
            yield from _referring(body, replay)
    yield from _clock(replay)
    yield from _runs(replay)


def _answer(body, replay):
    serial, state = body["serial"], replay.before(body["fixture"], body["serial"])
    if state.holds:
        yield "answered-while-held", f"answer {serial} of {body['fixture']}, held by {', '.join(state.holds)}"
    if (body["revision"], body["digest"]) != (state.revision, state.digest):
        yield "revision", f"answer {serial} is from revision {body['revision']}; revision {state.revision} was in force"
    done = state.done(body["purpose"])
    moved = sum((a - b) ** 2 for a, b in zip(body["shiftBase"], done)) ** 0.5 if done else 0
    known = {(body["purpose"], None), (body["purpose"], tuple(body["nest"]))} & state.nests
    if body["first"] != (not known or moved > state.first_above):
        yield "first", f"answer {serial} says first={body['first']}; the shift carried out was {done or 'nothing'}, and it moved by {moved:.7f} m"
    if "measurement" in body:
        yield from _measured(body, state, replay)


def _measured(body, state, replay):
    serial, used = body["serial"], body["measurement"]
    if used != state.measurement:
        yield "not-standing", f"answer {serial} uses measurement {used}; the valid measurement was {state.measurement or 'none'}"
    measured = replay.bodies.get(used, {})
    if measured.get("kind") != "measurement" or measured["fixture"] != body["fixture"]:
        yield "not-standing", f"answer {serial} of {body['fixture']} uses entry {used}, which is not a measurement of that fixture"
        return
    if measured["diameter"] != body["diameter"] or measured.get("lot") != body.get("lot"):
        stock = f"diameter {body['diameter']} of lot {body.get('lot')}; measurement {used} {measured['diameter']} of {measured.get('lot')}"
        yield "other-stock", f"answer {serial} has {stock}"
    age = age_of(body, measured)
    if replay.stepped_back(used, serial) or not -1 <= age <= measured["freshFor"]:
        yield "stale", f"answer {serial} uses measurement {used}, {age:.3f} s old, fresh for {measured['freshFor']} s, or from before a step back"
    elif abs(body["age"] - max(0, age)) > 1e-5:
        yield "age", f"answer {serial} says that measurement {used} is {body['age']} s old; it is {age:.6f}"


def age_of(body, measured):
    """Counts from the first reading, so a measurement that waited for the ledger is older than its entry."""
    return instant(body["at"]) - instant(measured["at"]) + measured.get("waited", 0)


def _refusal(body, replay):
    """A refusal has to be true; otherwise somebody measures for nothing."""
    state, reason, serial = replay.before(body.get("fixture", ""), body["serial"]), body["reason"], body["serial"]
    if reason == "fixture-held" and not state.holds and "retryOf" not in body:
        yield "refused-wrongly", f"entry {serial} says that {body['fixture']} is held, but it is not"
    if reason == "measurement-missing" and state.measurement:
        yield "refused-wrongly", f"entry {serial} says that nothing is measured, but measurement {state.measurement} is valid"
    if reason == "measurement-stale" and state.measurement:
        measured = replay.bodies[state.measurement]
        if -1 <= age_of(body, measured) <= measured["freshFor"] and not replay.stepped_back(state.measurement, serial):
            yield "refused-wrongly", f"entry {serial} says that measurement {state.measurement} is stale, but it is fresh"


def _referring(body, replay):
    """A confirmation or a done is of what an answer served."""
    of = body["confirms"] if body["kind"] == "confirmation" else body["answer"]
    answer = replay.bodies.get(of, {})
    if answer.get("kind") != "answer" or any(answer[name] != body[name] for name in ("fixture", "revision", "digest", "purpose", "shiftBase")):
        yield "confirmation", f"entry {body['serial']} is not of what answer {of} served"


def _clock(replay):
    before = None
    for serial, body in replay.bodies.items():
        if before is not None and instant(body["at"]) < instant(before["at"]) - STEP and body["kind"] != "clock-step":
            yield "clock", f"entry {serial} is of {body['at']}, before entry {before['serial']} of {before['at']}, but no clock step is recorded"
        before = body


def _runs(replay):
    """Every entry is between a start and its stop, and the next start reports a missing stop."""
    running = told = False
    for serial, body in replay.bodies.items():
        kind = body["kind"]
        if kind == "clock-step":
            continue  # a start records the step before it records itself
        sound = running if kind == "unclean-stop" else (not running or told) if kind == "service-started" else running or kind == "seal"
        if not sound:
            yield "runs", f"entry {serial}, {kind}, is in an impossible place"
        running, told = kind != "service-stopped", kind == "unclean-stop"
