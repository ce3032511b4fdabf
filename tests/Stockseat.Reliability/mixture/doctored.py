"""Falsified histories: each breaks the rule that it is registered for."""
import copy

from history import Event
from sound_story import OFFICE

CASES = []


def case(rule):
    """Registers a function that changes a story so that this rule is broken."""
    def register(function):
        CASES.append((rule, function))
        return function
    return register


def again(story, serial, seconds, **changes):
    """An outcome that is returned once more."""
    event = copy.deepcopy(story.event(serial))
    event.sent, event.done = seconds - 0.1, seconds + 0.1
    vars(event).update(changes)
    story.events.append(event)
    return event


def before(story, serial, at, kind, **fields):
    """Inserts an entry before another one; later serials move up, and so does everything that names them."""
    body = story.log(at, kind, **fields)
    story.bodies.remove(body)
    place = story.bodies.index(story.body(serial))
    story.bodies.insert(place, body)
    move = {b["serial"]: i + 1 for i, b in enumerate(story.bodies)}
    for one in story.bodies:
        one["serial"] = move[one["serial"]]
        one.update({name: move[one[name]] for name in ("measurement", "confirms", "retryOf") if name in one})
        if "follows" in one:
            one["follows"]["last"] = move[one["follows"]["last"]]
    for event in story.events:
        event.fields.update({name: str(move[int(event.fields[name])]) for name in ("serial", "measurement", "confirms") if name in event.fields})


@case("chain")
def edited(story):
    def doctor(found):
        found[0].rows[3].raw = found[0].rows[3].raw.replace(b"0.09,", b"0.08,")
    story.rows_doctor = doctor


@case("chain")
def gap(story):
    story.bodies.remove(story.body(6))


@case("link")
def other_beginning(story):
    story.body(14)["follows"]["hash"] = "00" * 32


@case("link")
def cut_after_the_end(story):
    del story.bodies[13:]


@case("carried")
def carried_otherwise(story):
    story.body(14)["carried"] = [{**story.body(2), "revision": 4}]


@case("lost")
def acknowledged_and_cut(story):
    del story.bodies[17:]


@case("lost")
def acknowledged_as_another_kind(story):
    story.body(11)["kind"] = "service-note"


@case("numbers")
def other_number(story):
    story.body(10)["position"] = [0.0, 0.0, 0.0001]


@case("numbers")
def other_hold(story):
    story.event(7).asked["by"] = "somebody else"


@case("grammar")
def half_an_answer(story):
    story.event(10).line = story.event(10).line.removesuffix(" end")


@case("grammar")
def exponent(story):
    story.event(10).answered(story.event(10).line.replace("by=0.001000", "by=1e-3"))


@case("refusal-with-coordinates")
def last_value(story):
    refused = next(e for e in story.events if e.tag == "l-6")
    refused.answered(refused.line.replace(' text="', ' text="last bx=0.001 '))


@case("serial-twice")
def twice(story):
    again(story, 10, 36, tag="l-99", request="")


@case("order")
def overtaken(story):
    story.event(10).sent = story.event(6).sent - 0.1


@case("logged-twice")
def done_twice(story):
    story.body(6)["tag"] = "l-1"


@case("refused-but-done")
def accepted_though_refused(story):
    story.event(18).answered('refused tag=g-4 class=service reason=ledger-unavailable text="no"')


@case("refused-unlogged")
def no_entry(story):
    del story.body(12)["tag"]


@case("retry-of")
def of_nothing(story):
    story.body(20)["retryOf"] = 11


@case("hold")
def released_what_nobody_held(story):
    story.body(8)["of"] = "nobody"


@case("answered-while-held")
def held(story):
    before(story, 10, 34, "held", fixture="pinbed-1", by="other", why="pins", client=OFFICE)


@case("revision")
def older_revision(story):
    story.body(10)["digest"] = "d2"


@case("first")
def first_forgotten(story):
    before(story, 6, 12.5, "revision-adopted", fixture="pinbed-1", revision=3, digest="d3", content={})


@case("first")
def moved_far(story):
    story.body(10)["shiftBase"] = [0.0, 0.0012, 0.0]


@case("not-standing")
def emptied_before(story):
    before(story, 10, 34, "emptied", fixture="pinbed-1", client=OFFICE)


@case("not-standing")
def refused_before(story):
    before(story, 6, 12.5, "refusal", fixture="pinbed-1", client="gauge-station", asked="measured", reason="readings-disagree", number=18, text="no")


@case("other-stock")
def other_lot(story):
    story.body(9)["lot"] = "A1"


@case("stale")
def too_old(story):
    story.body(9)["freshFor"] = 4.0


@case("stale")
def set_back(story):
    before(story, 10, 34, "clock-step", seconds=-5.0, before="2026-11-25T08:00:39.000000Z")


@case("age")
def age_from_the_entry(story):
    story.body(10)["age"] = 1.5


@case("refused-wrongly")
def nothing_measured(story):
    story.body(11)["kind"] = "service-note"
    story.events.remove(story.event(11))


@case("confirmation")
def of_other_numbers(story):
    story.body(5)["shiftBase"] = [0.0, 0.0011, 0.0]


@case("clock")
def back_unsaid(story):
    story.body(12)["at"] = story.body(3)["at"]


@case("runs")
def started_twice(story):
    before(story, 10, 34, "service-started")


@case("ok-not-in-force")
def hold_release_hold(story):
    again(story, 7, 34)


@case("ok-not-in-force")
def release_told_again(story):
    before(story, 10, 33.6, "held", fixture="pinbed-1", by="setter", why="again", client=OFFICE)
    held_again = copy.deepcopy(story.event(7))
    held_again.sent, held_again.done, held_again.request, held_again.fields = 33.6, 33.7, "h-2", {"serial": "10"}
    story.events.append(held_again)
    again(story, 8, 34.4)


@case("ok-not-in-force")
def emptied_told_again(story):
    again(story, 11, 53, request="e-1", tag="")


@case("ok-not-in-force")
def measured_told_again(story):
    again(story, 3, 53, request="m-1", tag="")


@case("late-readings")
def waited_out_an_emptied(story):
    emptied = Event("lathe-1", "emptied", 32.0, "pinbed-1", tag="l-9")
    before(story, 9, 32.1, "emptied", fixture="pinbed-1", client="lathe-1", tag="l-9")
    story.events.append(emptied.answered("ok tag=l-9 serial=9 fixture=pinbed-1"))
    emptied.done = 32.2


@case("late-readings")
def waited_out_a_hold(story):
    for event in story.events:
        if event.verb == "reading":
            event.sent = 15.0


@case("waited")
def waited_unsaid(story):
    """Another ask was sent well after the readings, but its entry comes before theirs."""
    del story.body(9)["waited"]
    story.event(8).sent = 32.9


@case("true-age")
def clock_set_back_unseen(story):
    story.event(16).sent = 50 + 60 + 5


@case("doubtful")
def old_one_stands(story):
    """The push that was refused without a decision left no entry, and no newer push came."""
    old = story.event(16)
    old.sent, old.done = 55.3, 55.4
    story.bodies.remove(story.body(17))
    for number, body in enumerate(story.bodies):
        body["serial"] = number + 1
