"""Proving, simulated: fixtures as they truly are, revision files of them with one mistake each, and what a person finds who
follows the recipe of config/README.md with masters in the true fixture. Worked out from the documents, without the program.

python3 prove_fixtures.py SEED COUNT

Prints one JSON object a line for each fixture: the right file, the file with the mistake, by how much the mistake moves the
nests, and the rechecks: which nest, which master, where its centre truly is (null: the fixture has no such nest), and how
far that is from where the file says (null: it knows no seat for that master).
"""
import copy
import json
import random
import sys
from math import atan2, pi, radians

from plan_model import Plan, length, minus, seat, size

SMALLEST_LIMIT, LARGEST_LIMIT = 0.0005, 0.002  # of a recheck, in metres
HELD = radians(6)


def mm(value):
    return f"{value:.3f} mm"


def deg(value):
    return f"{value:.4f} deg"


def pins(r, least):
    diameter = r.uniform(8, 20)
    reach = least + diameter  # twice the distance of the centres when the smallest stock touches
    return {"pins": {"spacing": mm(r.uniform(0.35, 0.8) * reach), "diameter": mm(diameter)}}


def unequal_pins(r, least):
    one, other = r.uniform(8, 14), r.uniform(15, 22)
    reach = (least + one) / 2
    return {"locators": [
        {"pin": {"u": mm(-r.uniform(0.35, 0.7) * reach), "v": mm(0), "diameter": mm(one)}},
        {"pin": {"u": mm(r.uniform(0.35, 0.7) * reach), "v": mm(r.uniform(-4, 4)), "diameter": mm(other)}}]}


def vee(r, least):
    return {"vee": {"includedAngle": deg(r.uniform(60, 125))}}


def faces(r, least):
    return {"locators": [
        {"face": {"u": mm(r.uniform(-10, 10)), "v": mm(0), "normal": deg(r.uniform(25, 60))}},
        {"face": {"u": mm(r.uniform(-10, 10)), "v": mm(0), "normal": deg(r.uniform(115, 160))}}]}


def pin_and_face(r, least):
    return {"locators": [
        {"pin": {"u": mm(-r.uniform(0.3, 0.6) * least / 2), "v": mm(0), "diameter": mm(r.uniform(8, 20))}},
        {"face": {"u": mm(20), "v": mm(0), "normal": deg(r.uniform(115, 160))}}]}


def layout(r, most):
    directions = r.choice(["", "u", "v", "w", "uv", "uv", "uv", "vu", "uw"])
    rows = [(d, r.randint(2, 8), r.uniform(1.3, 2.2) * most * r.choice([1, 1, 1, -1])) for d in directions]
    return {"layout": [{"direction": d, "count": count, "pitch": mm(pitch)} for d, count, pitch in rows]} if rows else {}


def right_file(r):
    """A fixture as it truly is: its file has every value right."""
    taught = r.uniform(45, 110)
    least, most = r.uniform(0.6, 0.9) * taught, r.uniform(1.1, 1.4) * taught
    turn, tilt = r.uniform(-180, 180), r.choice([0, r.uniform(3, 35), r.uniform(-35, -3)])
    return {
        "calibrated": {"at": "2026-11-20T09:12:00Z", "by": "day setter", "method": "touched", "note": ""},
        "nest": r.choice([pins, pins, unequal_pins, vee, faces, pin_and_face])(r, least),
        **layout(r, most),
        "taught": {
            "diameter": mm(taught), "position": {n: mm(r.uniform(-900, 900)) for n in "xyz"},
            "orientation": {"aboutZ": deg(turn), "thenY": "0 deg", "thenX": deg(tilt + 180)}},
        "frame": {"aboutZ": deg(turn), "thenY": "0 deg", "thenX": deg(tilt)}, "seatedBy": "push",
        "limits": {"diameter": [mm(least), mm(most)], "recheck": mm(1000 * r.uniform(SMALLEST_LIMIT, LARGEST_LIMIT))},
    }


def vectors(v, w):
    return {"seatAxis": dict(zip("xyz", v)), "normal": dict(zip("xyz", w))}


def opposite(a):
    return tuple(-part for part in a)


def number(text):
    return float(text.split()[0])


def changed(text, by):
    """The number in a text, changed, with its unit."""
    return f"{by(number(text)):.4f} {text.split()[1]}"


def transposed(r, text):
    """Two neighbouring digits that differ, exchanged."""
    places = [i for i in range(len(text) - 1) if text[i].isdigit() and text[i + 1].isdigit() and text[i] != text[i + 1]]
    at = r.choice(places[:2])
    return text[:at] + text[at + 1] + text[at] + text[at + 2:]


def each_length(file):
    """Every place of a number that moves nests: the object that has it, and its key."""
    nest = file["nest"]
    for value in nest.values() if "locators" not in nest else [v for one in nest["locators"] for v in one.values()]:
        yield from ((value, key) for key in value if number(value[key]) != 0)
    yield from ((row, "pitch") for row in file.get("layout", []))
    yield from ((file["taught"]["position"], n) for n in "xyz")
    yield file["taught"], "diameter"
    yield from ((file["frame"], n) for n in ("aboutZ", "thenX") if number(file["frame"][n]) != 0)


def mistakes(r, file):
    """What may be done wrong with this file: a name, and a function that does it."""
    v, w = Plan(file).v, Plan(file).w
    nest, rows, taught, frame = file["nest"], file.get("layout", []), file["taught"], file["frame"]

    def put(where, key, value):
        def do():
            where[key] = value
        return do

    yield "seat axis flipped", put(file, "frame", vectors(opposite(v), w))
    yield "normal flipped", put(file, "frame", vectors(v, opposite(w)))
    yield "seat axis and normal swapped", put(file, "frame", vectors(w, v))
    yield "turn's sign wrong", put(frame, "aboutZ", changed(frame["aboutZ"], lambda n: -n))
    yield "turn a little wrong", put(frame, "aboutZ", changed(frame["aboutZ"], lambda n: n + r.choice([-1, 1]) * r.uniform(0.1, 2)))
    yield "taught with another master", put(taught, "diameter", changed(taught["diameter"], lambda n: n * r.choice([0.9, 0.97, 1.03, 1.1])))
    if number(frame["thenX"]) != 0:
        yield "tilt's sign wrong", put(frame, "thenX", changed(frame["thenX"], lambda n: -n))
    if "pins" in nest:
        spacing, diameter = number(nest["pins"]["spacing"]), number(nest["pins"]["diameter"])
        yield "spacing between the edges", put(nest["pins"], "spacing", mm(spacing - diameter))
        yield "spacing over the pins", put(nest["pins"], "spacing", mm(spacing + diameter))
        yield "pin's radius given as its diameter", put(nest["pins"], "diameter", mm(diameter / 2))
        yield "spacing a little wrong", put(nest["pins"], "spacing", mm(spacing + r.choice([-1, 1]) * r.uniform(0.3, 5)))
    if "vee" in nest:
        yield "half the vee's angle", put(nest["vee"], "includedAngle", changed(nest["vee"]["includedAngle"], lambda n: n / 2))
        off = r.choice([-1, 1]) * r.uniform(0.5, 5)
        yield "vee's angle a little wrong", put(nest["vee"], "includedAngle", changed(nest["vee"]["includedAngle"], lambda n: n + off))
    if "locators" in nest and all("pin" in one for one in nest["locators"]):
        def mirror():
            for one in nest["locators"]:
                one["pin"]["u"] = changed(one["pin"]["u"], lambda n: -n)
        yield "unequal pins mirrored", mirror
    for row in rows:
        yield "pitch wrong", put(row, "pitch", changed(row["pitch"], lambda n: n + r.choice([-1, 1]) * r.uniform(0.1, 5)))
        yield "pitch's sign wrong", put(row, "pitch", changed(row["pitch"], lambda n: -n))
    if len(rows) == 2:
        def swap(key):
            def do():
                rows[0][key], rows[1][key] = rows[1][key], rows[0][key]
            return do
        yield "counts swapped", swap("count")
        yield "pitches swapped", swap("pitch")
        yield "directions swapped", swap("direction")
    where, key = r.choice([(a, b) for a, b in each_length(file) if transposable(a[b])])
    yield "digits transposed", put(where, key, transposed(r, where[key]))


KINDS = (
    "seat axis flipped", "normal flipped", "seat axis and normal swapped", "turn's sign wrong", "turn a little wrong",
    "taught with another master", "tilt's sign wrong", "spacing between the edges", "spacing over the pins",
    "pin's radius given as its diameter", "spacing a little wrong", "half the vee's angle", "vee's angle a little wrong",
    "unequal pins mirrored", "pitch wrong", "pitch's sign wrong", "counts swapped", "pitches swapped", "directions swapped",
    "digits transposed")


def transposable(text):
    digits = text.split()[0].lstrip("-").split(".")[0] + "."
    return any(a != b for a, b in zip(digits, digits[1:]) if b != ".")


def apart(true, stated, nest, diameter):
    """How far the stock is from where the file says; None where the file knows no seat."""
    at = stated.centre(nest, diameter)
    return None if at is None else size(minus(true.centre(nest, diameter), at))


def held(plan, diameter):
    """Whether the seat axis lies between the two contacts' normals, well away from both."""
    u, v = seat(plan.pair, diameter / 2) or (None, None)
    if u is None:
        return False
    leans = sorted(pi / 2 - normal if normal is not None else atan2(u - pu, v - pv) for pu, pv, _, normal in plan.pair)
    return leans[0] < -HELD and leans[1] > HELD


def moved(true, stated, least, most):
    """The largest move of any nest that both have, at any diameter of the range; None when the file knows no seat for one."""
    counts = [min(a, b) for a, b in zip(true.counts(), stated.counts())]
    moves = [apart(true, stated, (c, w), least + (most - least) * i / 20)
             for i in range(21) for c in {0, counts[0] - 1} for w in {0, counts[1] - 1}]
    return None if None in moves else max(moves)


def rechecks(true, stated, small, large):
    """The recipe: both masters in nest 0,0, one of them in the far nest of each direction, as the file names them."""
    across, along = stated.counts()
    for nest, master in [((0, 0), small), ((0, 0), large)] + [((across - 1, 0), large)] * (across > 1) + [((0, along - 1), small)] * (along > 1):
        there = all(index < count for index, count in zip(nest, true.counts()))
        found = true.centre(nest, master) if there else None
        yield {"nest": nest, "master": master, "found": found, "apart": apart(true, stated, nest, master) if there else None}


def simulated(r, index):
    """One fixture with one mistake, of each kind in turn; others are drawn until one can have it, and it changes the file."""
    name = KINDS[index % len(KINDS)]
    while True:
        right = right_file(r)
        wrong = copy.deepcopy(right)
        fitting = [make for kind, make in mistakes(r, wrong) if kind == name]
        if not fitting:
            continue
        r.choice(fitting)()
        true = Plan(right)
        least, most = (length(text) for text in right["limits"]["diameter"])
        if wrong != right and all(held(true, d) for d in (least, true.taught, most)):
            break
    stated, fifth = Plan(wrong), (most - least) / 5
    lower = r.uniform(least, most - fifth)
    near = least + r.uniform(0, 0.05) * (most - least), most - r.uniform(0, 0.05) * (most - least)
    title = {"fixture": f"fixture-{index}", "revision": 1}
    return {
        "mistake": name, "limit": length(right["limits"]["recheck"]), "moved": moved(true, stated, least, most),
        "right": {**title, **right}, "wrong": {**title, **wrong},
        "leastApart": list(rechecks(true, stated, lower, lower + fifth)), "nearTheEnds": list(rechecks(true, stated, *near)),
        "ofTheRightFile": list(rechecks(true, true, *near)),
    }


if __name__ == "__main__":
    chance = random.Random(int(sys.argv[1]))
    for each in range(int(sys.argv[2])):
        print(json.dumps(simulated(chance, each)))
