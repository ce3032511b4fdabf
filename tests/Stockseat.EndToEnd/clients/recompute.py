"""Computes every answer of an exported ledger again, from its entries alone: seats by root finding on the two contact
equations, uncertainties by numeric derivatives of the whole model, in 40 digits. Written from the documents (README.md,
proto/README.md), not from the program.

python3 recompute.py FILE, made by: ledger export --jsonl --output FILE
The last line is one JSON object: how many answers and refusals were compared, and what differs.
"""
import json
import sys
from datetime import datetime

from mpmath import cos, exp, findroot, matrix, mp, mpf, pi, sin, sqrt

mp.dps = 40
H = mpf("1e-15")  # step of the central differences: their error is of the order of its square
TOLERANCE = mpf("1e-12")  # metres; doubles of this size are rounded at 1e-16


class Locator:
    """A pin (place, radius) or a face (place, normal)."""

    def __init__(self, u, v, radius=None, normal=None):
        self.u, self.v, self.radius, self.normal = mpf(u), mpf(v), radius, normal

    def moved(self, du=0, dv=0, size=0, angle=0):
        """The same locator with deviations; size is how much its radius, or the stock at this contact, is too large."""
        normal = None if self.normal is None else self.normal + angle
        copy = Locator(self.u + du, self.v + dv, self.radius, normal)
        copy.size = getattr(self, "size", 0) + size
        return copy

    def gap(self, u, v, radius):
        """0 where stock of that radius touches."""
        size = getattr(self, "size", 0)
        if self.normal is None:
            return sqrt((u - self.u) ** 2 + (v - self.v) ** 2) - radius - self.radius - size
        return cos(self.normal) * (u - self.u) + sin(self.normal) * (v - self.v) - radius - size


def locators(nest):
    if "pins" in nest:
        half, radius = mpf(nest["pins"]["spacing"]) / 2, mpf(nest["pins"]["diameter"]) / 2
        return [Locator(-half, 0, radius), Locator(half, 0, radius)]
    if "vee" in nest:
        half = mpf(nest["vee"]["includedAngle"]) / 2
        return [Locator(0, 0, normal=half), Locator(0, 0, normal=pi - half)]
    found = []
    for each in nest["locators"]:
        kind, value = next(iter(each.items()))
        found.append(Locator(value["u"], value["v"], mpf(value["diameter"]) / 2) if kind == "pin" else Locator(value["u"], value["v"], normal=mpf(value["normal"])))
    return found


def seat(pair, radius):
    """Where both contacts touch, with the stock on the side of the seat axis."""
    root = findroot(lambda u, v: [one.gap(u, v, radius) for one in pair], (mpf(0), 2 * radius), tol=mpf("1e-60"), maxsteps=60)
    return root[0], root[1]


def normals(pair, radius):
    u, v = seat(pair, radius)
    for one in pair:
        if one.normal is not None:
            yield cos(one.normal), sin(one.normal)
        else:
            length = sqrt((u - one.u) ** 2 + (v - one.v) ** 2)
            yield (u - one.u) / length, (v - one.v) / length


def rotation(orientation):
    """The matrix of an orientation, from any of the forms that a revision has."""
    def about(axis, angle):
        x, y, z = axis
        length = sqrt(x * x + y * y + z * z)
        x, y, z, c, s = x / length, y / length, z / length, cos(angle), sin(angle)
        return matrix([
            [c + x * x * (1 - c), x * y * (1 - c) - z * s, x * z * (1 - c) + y * s],
            [y * x * (1 - c) + z * s, c + y * y * (1 - c), y * z * (1 - c) - x * s],
            [z * x * (1 - c) - y * s, z * y * (1 - c) + x * s, c + z * z * (1 - c)]])

    if "w" in orientation:
        w, x, y, z = (mpf(orientation[n]) for n in "wxyz")
        sine = sqrt(x * x + y * y + z * z)
        return about((x, y, z), 2 * mp.atan2(sine, w)) if sine else about((1, 0, 0), mpf(0))
    if "axis" in orientation:
        return about([mpf(orientation["axis"][n]) for n in "xyz"], mpf(orientation["angle"]))
    return about((0, 0, 1), mpf(orientation["aboutZ"])) * about((0, 1, 0), mpf(orientation["thenY"])) * about((1, 0, 0), mpf(orientation["thenX"]))


def vector(value):
    return [mpf(value[n]) for n in "xyz"]


def dot(a, b):
    return sum(p * q for p, q in zip(a, b))


def scaled(factor, a):
    return [factor * p for p in a]


def plus(*many):
    return [sum(parts) for parts in zip(*many)]


class Revision:
    def __init__(self, content):
        self.content, self.pair = content, locators(content["nest"])
        self.taught_radius = mpf(content["taught"]["diameter"]) / 2
        v, normal = vector(content["frame"]["seatAxis"]), vector(content["frame"]["normal"])
        self.v = scaled(1 / sqrt(dot(v, v)), v)
        square = plus(normal, scaled(-dot(normal, self.v), self.v))
        self.w = scaled(1 / sqrt(dot(square, square)), square)
        (vx, vy, vz), (wx, wy, wz) = self.v, self.w
        self.u = [vy * wz - vz * wy, vz * wx - vx * wz, vx * wy - vy * wx]
        self.layout = content.get("layout", [])

    def counts(self):
        return [one["count"] for one in self.layout] + [1] * (2 - len(self.layout))

    def offset(self, column, row):
        """From nest 0,0 to a nest in the plan's axes u, v, w."""
        place = {"u": mpf(0), "v": mpf(0), "w": mpf(0)}
        for one, index in zip(self.layout, (column, row)):
            place[one["direction"]] += index * mpf(one["pitch"])
        return place["u"], place["v"], place["w"]

    def shift(self, radius, stand_off):
        (u, v), (ut, vt) = seat(self.pair, radius + stand_off), seat(self.pair, self.taught_radius)
        return u - ut, v - vt

    def base(self, u, v, w=0):
        return plus(scaled(u, self.u), scaled(v, self.v), scaled(mpf(w), self.w))


def standard(stated):
    """The standard uncertainty of a limit, plus or minus and rectangular, or as stated."""
    return mpf(stated["standard"]) if isinstance(stated, dict) else mpf(stated) / sqrt(3)


def expanded(revision, answer, nest):
    """U along and across at a nest, by numeric derivatives of where the stock is, minus where the robot is sent."""
    known, source = revision.content["uncertainty"], answer.get("from")
    radius, taught, pair = mpf(answer["diameter"]) / 2, revision.taught_radius, revision.pair
    same = nest == (0, 0)
    total = {"u": mpf(0), "v": mpf(0)}

    def add(deviation, u, v):
        total["u"] += (deviation * u) ** 2
        total["v"] += (deviation * v) ** 2

    def moves(change, at_taught=False):
        """How the seat moves per unit of a change; change(h) gives the locators and the excess of the radius."""
        base = taught if at_taught else radius
        (p1, r1), (p2, r2) = change(H), change(-H)
        (u1, v1), (u2, v2) = seat(p1, base + r1), seat(p2, base + r2)
        return (u1 - u2) / (2 * H), (v1 - v2) / (2 * H)

    def both(deviation, change):
        here, there = moves(change), moves(change, at_taught=True)
        if same:
            add(deviation, here[0] - there[0], here[1] - there[1])
        else:
            add(deviation, *here)
            add(deviation, *there)

    thicker = lambda h: (pair, h / 2)
    gauge = (source or {}).get("limits", {}).get("limitsOfError")
    if gauge is not None:
        here = moves(thicker)
        if revision.content["taught"].get("measuredWith") == source["gauge"]:
            there = moves(thicker, at_taught=True)
            here = here[0] - there[0], here[1] - there[1]
        add(mpf(gauge) / sqrt(3), *here)
        assert "repeatability" not in source["limits"] and "agreement" in source and source["readings"] < 10  # else it would count too
        if "resolution" in source["limits"]:
            add(mpf(source["limits"]["resolution"]) / 2 / sqrt(3), *moves(thicker))
    else:
        assert source is None
        add(standard(known["askedDiameter"]), *moves(thicker))
    if "taughtDiameter" in known:
        add(standard(known["taughtDiameter"]), *moves(thicker, at_taught=True))

    changed = lambda i, **by: [one.moved(**by) if j == i else one for j, one in enumerate(pair)]
    for i, one in enumerate(pair):
        if "seating" in known:
            add(standard(known["seating"]), *moves(lambda h: (changed(i, size=h), 0)))
        if "locatorDiameter" in known and one.normal is None:
            both(standard(known["locatorDiameter"]), lambda h: (changed(i, size=h / 2), 0))
        if "locatorPosition" in known and one.normal is None:
            both(standard(known["locatorPosition"]), lambda h: (changed(i, du=h), 0))
            both(standard(known["locatorPosition"]), lambda h: (changed(i, dv=h), 0))
        elif "locatorPosition" in known:
            both(standard(known["locatorPosition"]), lambda h: (changed(i, du=h * cos(one.normal), dv=h * sin(one.normal)), 0))
        if "locatorAngle" in known and one.normal is not None:
            both(standard(known["locatorAngle"]), lambda h: (changed(i, angle=h), 0))

    if "roundness" in known:
        # An amplitude at an unknown turn: arcsine, unless stated otherwise.
        stated = known["roundness"]
        add(standard(stated) if isinstance(stated, dict) else mpf(stated) / sqrt(2), *lobing(pair, radius))
    if "lean" in known and "leanHeight" in known:
        add(standard(known["lean"]), mpf(known["leanHeight"]), 0)
        add(standard(known["lean"]), 0, mpf(known["leanHeight"]))
    for key in ("teaching", "frame", "robot"):
        if key in known:
            add(standard(known[key]), 1, 0)
            add(standard(known[key]), 0, 1)
    if "frameAngle" in known:
        (du, dv), (ou, ov, ow) = revision.shift(radius, mpf(answer["standOff"])), revision.offset(*nest)
        add(standard(known["frameAngle"]), ov + dv, ou + du)
        add(standard(known["frameAngle"]), 0, ow)
        add(standard(known["frameAngle"]), ow, 0)
    return 2 * sqrt(total["v"]), 2 * sqrt(total["u"])


def lobing(pair, radius):
    """How far a contour of 2 to 12 lobes of unit amplitude moves the seat at the worst turn, across and along.

    An even number of lobes misleads a two-point gauge too."""
    moved = [moves_of_contact(pair, radius, i) for i in (0, 1)]
    angles = [mp.atan2(v, u) for u, v in normals(pair, radius)]
    worst = [mpf(0), mpf(0)]
    for lobes in range(2, 13):
        for axis in (0, 1):
            wave = abs(sum(moved[i][axis] * exp(1j * lobes * angles[i]) for i in (0, 1))) ** 2
            gauge = (moved[0][axis] + moved[1][axis]) ** 2 if lobes % 2 == 0 else 0
            worst[axis] = max(worst[axis], sqrt(wave + gauge))
    return worst


def moves_of_contact(pair, radius, i):
    ends = [seat([one.moved(size=h) if j == i else one for j, one in enumerate(pair)], radius) for h in (H, -H)]
    return (ends[0][0] - ends[1][0]) / (2 * H), (ends[0][1] - ends[1][1]) / (2 * H)


class Day:
    """The situation, entry by entry, and all differences."""

    def __init__(self):
        self.revisions, self.measured, self.done, self.nests, self.held, self.answers = {}, {}, {}, set(), {}, {}
        self.back, self.compared, self.refused, self.differences = 0, 0, 0, []

    def differs(self, entry, what, recorded, computed):
        self.differences.append(f"entry {entry['serial']}: {what}: {recorded} is recorded, {computed} is computed")

    def same(self, entry, what, recorded, computed):
        for i, (r, c) in enumerate(zip(recorded, computed)):
            if abs(mpf(r) - c) > TOLERANCE:
                self.differs(entry, f"{what}[{i}]", r, mp.nstr(c, 18))
        if len(recorded) != len(computed):
            self.differs(entry, what, recorded, computed)

    def take(self, entry):
        kind, fixture = entry["kind"], entry.get("fixture")
        if kind == "revision-adopted":
            self.revisions[fixture] = Revision(entry["content"])
            self.forget(fixture)
        elif kind == "measurement":
            readings = [mpf(r) for r in entry["readings"]]
            self.same(entry, "diameter", [entry["diameter"]], [sum(readings) / len(readings)])
            self.measured[fixture] = entry
        elif kind == "emptied":
            self.measured.pop(fixture, None)
        elif kind == "held":
            self.held.setdefault(fixture, set()).add(entry["by"])
        elif kind == "released":
            self.held[fixture].discard(entry["of"])
        elif kind == "clock-step" and entry["seconds"] < 0:
            self.back = entry["serial"]
        elif kind == "answer":
            self.answer(entry)
        elif kind == "confirmation":
            answer = self.answers[entry["confirms"]]
            self.same(entry, "shiftBase", entry["shiftBase"], [mpf(s) for s in answer["shiftBase"]])
            if not self.reads_back(answer, entry):
                self.differs(entry, "readBack", entry["readBack"], "a refusal")
            if entry["numbers"] != ("full" if self.reads_all(answer, entry) else "none"):
                self.differs(entry, "numbers", entry["numbers"], "what was read back")
        elif kind == "done":
            answer = self.answers[entry["answer"]]
            self.same(entry, "shiftBase", entry["shiftBase"], [mpf(s) for s in answer["shiftBase"]])
            self.done[fixture, entry["purpose"]] = entry["shiftBase"]
            self.nests.add((fixture, entry["purpose"], *answer["nest"]))
        elif kind == "recheck" and entry.get("passed") is False:
            self.forget(fixture)
        elif kind == "refusal":
            self.refusal(entry)

    def forget(self, fixture):
        self.done = {key: value for key, value in self.done.items() if key[0] != fixture}
        self.nests = {nest for nest in self.nests if nest[0] != fixture}

    def why_refused(self, entry):
        """Why a locate is refused, as far as the state alone decides that; None when it is answered."""
        fixture = entry["fixture"]
        if self.held.get(fixture):
            return "fixture-held"
        if entry.get("diameter") is not None and entry.get("measurement") is None:
            return None
        measured = self.measured.get(fixture)
        if measured is None:
            return "measurement-missing"
        age = (datetime.fromisoformat(entry["at"][:-1]) - datetime.fromisoformat(measured["at"][:-1])).total_seconds()
        return "measurement-stale" if age > measured["freshFor"] or measured["serial"] < self.back else None

    @staticmethod
    def reads_back(answer, entry):
        names = {f"b{n}": s for n, s in zip("xyz", answer["shiftBase"])} | dict(zip("xyz", answer["position"]))
        return all(abs(mpf(text) - mpf(names[name])) <= mpf("5.000001e-7") for name, text in entry.get("readBack", {}).items())

    @staticmethod
    def reads_all(answer, entry):
        """Every component of the shift in base that was not served as zero was read back."""
        read = entry.get("readBack", {})
        return all(f"b{n}" in read for n, s in zip("xyz", answer["shiftBase"]) if abs(mpf(s)) > mpf("5e-7"))

    def refusal(self, entry):
        self.refused += 1
        if entry["asked"] == "locate":
            expected = self.why_refused(entry)
        else:
            expected = "readback-differs" if entry["asked"] == "confirm" and not self.reads_back(self.answers[entry["confirms"]], entry) else None
        if expected != entry["reason"]:
            self.differs(entry, "reason", entry["reason"], expected)

    def answer(self, entry):
        self.compared += 1
        self.answers[entry["serial"]] = entry
        revision, (column, row), fixture = self.revisions[entry["fixture"]], entry["nest"], entry["fixture"]
        if (why := self.why_refused(entry)) is not None:
            self.differs(entry, "kind", "answer", why)
        if entry.get("measurement") is not None:
            measured = self.measured[fixture]
            if measured["serial"] != entry["measurement"] or measured["diameter"] != entry["diameter"]:
                self.differs(entry, "measurement", entry["measurement"], measured["serial"])
        stand_off = mpf(revision.content.get("standOff", {}).get(entry["purpose"], 0))
        self.same(entry, "standOff", [entry["standOff"]], [stand_off])
        shift = revision.base(*revision.shift(mpf(entry["diameter"]) / 2, stand_off))
        position = plus(vector(revision.content["taught"]["position"]), revision.base(*revision.offset(column, row)), shift)
        turned = rotation(revision.content["taught"]["orientation"])
        origin = [dot([turned[i, j] for i in range(3)], shift) for j in range(3)]
        self.same(entry, "shiftBase", entry["shiftBase"], shift)
        self.same(entry, "position", entry["position"], position)
        self.same(entry, "shiftOrigin", entry["shiftOrigin"], origin)
        self.first(entry, revision, shift)
        self.uncertainty(entry, revision)

    def first(self, entry, revision, shift):
        done = self.done.get((entry["fixture"], entry["purpose"]))
        new = (entry["fixture"], entry["purpose"], *entry["nest"]) not in self.nests
        above = mpf(revision.content["limits"].get("firstAbove", 0))
        moved = None if done is None else plus(shift, scaled(-1, [mpf(c) for c in done]))
        # The same shift in doubles and in forty digits differs by the rounding of doubles.
        first = new or moved is None or sqrt(dot(moved, moved)) > max(above, TOLERANCE)
        if first != entry["first"]:
            self.differs(entry, "first", entry["first"], first)

    def uncertainty(self, entry, revision):
        if "uncertainty" not in revision.content:
            return
        nest = tuple(entry["nest"])
        own, told = expanded(revision, entry, nest), entry["uncertainty"]
        self.same(entry, "uncertainty", [told["along"], told["across"]], own)
        if nest == (0, 0):
            columns, rows = revision.counts()
            corners = {(0, 0), (columns - 1, 0), (0, rows - 1), (columns - 1, rows - 1)}
            ends = [expanded(revision, entry, corner) for corner in corners]
            self.same(entry, "worst", [told["alongWorst"], told["acrossWorst"]], [max(e[0] for e in ends), max(e[1] for e in ends)])


def main():
    day = Day()
    with open(sys.argv[1], encoding="utf-8") as export:
        for line in export:
            day.take(json.loads(line)["body"])
    print(json.dumps({"answers": day.compared, "refusals": day.refused, "differences": day.differences}))


if __name__ == "__main__":
    main()
