"""What a revision means in base, worked out without the program, and compared with what `fixture check` prints.

python3 state_fixtures.py make FOLDER       writes FOLDER/NAME/r0001.json for each fixture below, and prints the names
python3 state_fixtures.py compare FOLDER    reads FOLDER/NAME/check.txt, what fixture check printed of it in millimetres

The last line of compare is one JSON object: how many numbers were compared, and what differs.
"""
import json
import os
import re
import sys

from plan_model import Plan, length, size

DOWN = {"aboutZ": "0 deg", "thenY": "0 deg", "thenX": "180 deg"}


def fixture(nest, frame, orientation, layout, diameter="80 mm", position=("412.3 mm", "-205 mm", "118 mm")):
    return {
        "calibrated": {"at": "2026-11-20T09:12:00Z", "by": "day setter", "method": "drawing", "note": ""},
        "nest": nest, **({"layout": layout} if layout else {}),
        "taught": {"diameter": diameter, "position": dict(zip("xyz", position)), "orientation": orientation},
        "frame": frame, "seatedBy": "push", "limits": {"diameter": [f"{share * length(diameter):.6f} m" for share in (0.9, 1.1)]},
    }


def turned(z, y, x):
    return {"aboutZ": f"{z} deg", "thenY": f"{y} deg", "thenX": f"{x} deg"}


def along(*rows):
    return [{"direction": direction, "count": count, "pitch": pitch} for direction, count, pitch in rows]


def pin(u, v, diameter):
    return {"pin": {"u": u, "v": v, "diameter": diameter}}


def face(u, v, normal):
    return {"face": {"u": u, "v": v, "normal": normal}}


def vectors(v, w):
    return {"seatAxis": dict(zip("xyz", v)), "normal": dict(zip("xyz", w))}


EQUAL, VEE = {"pins": {"spacing": "60 mm", "diameter": "12 mm"}}, {"vee": {"includedAngle": "70 deg"}}
UNEQUAL = {"locators": [pin("-31 mm", "0 mm", "16 mm"), pin("24 mm", "5 mm", "0.5 in")]}
GRID = along(("u", 6, "125 mm"), ("v", 4, "130 mm"))
FIXTURES = {
    "equal-level": fixture(EQUAL, vectors((0, 1, 0), (0, 0, 1)), DOWN, GRID),
    "equal-tilted": fixture(EQUAL, vectors((-0.576, 0.768, 0.28), (0.168, -0.224, 0.96)), turned(36.87, 0, 196.26), GRID),
    "equal-inches": fixture(
        {"pins": {"spacing": "2 in", "diameter": "0.5 in"}}, turned(-20, 0, 25), turned(-20, 0, 205),
        along(("u", 5, "3.5 in"), ("v", 3, "4 in")), "2.5 in", ("19.7 in", "-11.8 in", "9.85 in")),
    "unequal-level": fixture(UNEQUAL, turned(0, 0, 0), DOWN, along(("u", 3, "150 mm"))),
    "unequal-mirrored": fixture(
        {"locators": [pin("-24 mm", "5 mm", "0.5 in"), pin("31 mm", "0 mm", "16 mm")]}, turned(0, 0, 0), DOWN, along(("u", 3, "150 mm"))),
    "unequal-tilted": fixture(UNEQUAL, turned(107, -13, 31), turned(107, -13, 211), along(("v", 2, "0.2 m"), ("u", 4, "-110 mm"))),
    "vee-turned": fixture(VEE, turned(25, 0, 0), turned(25, 0, 180), along(("u", 8, "4.5 in"))),
    "vee-turned-back": fixture(VEE, turned(-25, 0, 0), turned(25, 0, 180), along(("u", 8, "4.5 in"))),
    "vee-falling": fixture(VEE, turned(160, 0, -25), turned(-20, 0, 205), GRID),
    "vee-tool-out": fixture(VEE, turned(10, 0, 20), turned(10, 0, 23), GRID),
    "vee-tool-along": fixture(VEE, turned(10, 0, 20), turned(10, 0, 117), GRID),
    "rollers": fixture(
        {"locators": [pin("-45 mm", "0 mm", "50 mm"), pin("45 mm", "0 mm", "50 mm")]}, vectors((0, 0, 3), (2, 1, 0)),
        {"axis": {"x": 1, "y": 1, "z": 0}, "angle": "180 deg"}, along(("w", 3, "450 mm"))),
    "corner": fixture(
        {"locators": [face("5 mm", "-2 mm", "0.7 rad"), face("-9 mm", "1 mm", "128 deg")]}, turned(-63, 8, -4),
        {"w": 0.0, "x": 0.6, "y": 0.8, "z": 0.0}, along(("u", 2, "130 mm"))),
    "pin-and-face": fixture(
        {"locators": [pin("-30 mm", "0 mm", "12 mm"), face("20 mm", "0 mm", "135 deg")]}, turned(200, 0, 12), turned(20, 0, 192), along(("v", 5, "140 mm"))),
    "one-nest": fixture(EQUAL, turned(77, 5, 9), turned(77, 5, 180), []),
}

NUMBER = r"([+-]?\d+(?:\.\d+)?)"
COMPONENTS = rf"mostly towards ([+-][xyz]): x {NUMBER}, y {NUMBER}, z {NUMBER}\."


class Compared:
    """What was printed of one fixture, beside what was expected."""

    def __init__(self, name, text):
        self.name, self.text, self.count, self.differs = name, text, 0, []

    def found(self, pattern, what):
        match = re.search(pattern, self.text, re.MULTILINE)
        if match is None:
            self.differs.append(f"{self.name}: {what} is not in the text")
        return match

    def number(self, what, printed, expected, tolerance):
        self.count += 1
        if not abs(float(printed) - expected) <= tolerance:
            self.differs.append(f"{self.name}: {what} is {printed}; {expected:.6f} was expected")

    def word(self, what, printed, expected):
        self.count += 1
        if printed != expected:
            self.differs.append(f"{self.name}: {what} is {printed!r}; {expected!r} was expected")

    def absent(self, word):
        self.count += 1
        if re.search(rf"^  \d+ {word}, ", self.text, re.MULTILINE):
            self.differs.append(f"{self.name}: {word} are in the text, and there is only one")

    def direction(self, what, groups, expected):
        largest = max(range(3), key=lambda i: abs(expected[i]))
        self.word(what, groups[0], "+-"[expected[largest] < 0] + "xyz"[largest])
        for axis, printed, value in zip("xyz", groups[1:], expected):
            self.number(f"{what}, {axis}", printed, value, 0.0006)


def compare(name, text):
    plan, said = Plan(FIXTURES[name]), Compared(name, text)
    if match := said.found(rf"^  When the diameter grows by 1 mm, the centre of the stock moves {NUMBER} mm in base, {COMPONENTS}$", "the movement"):
        said.number("the movement", match[1], size(plan.per_diameter()), 0.0006)
        said.direction("the movement", match.groups()[1:], plan.per_diameter())
    for which, word, step in ((0, "columns", (1, 0)), (1, "rows", (0, 1))):
        if plan.counts()[which] == 1:
            said.absent(word)
        elif match := said.found(rf"^  {NUMBER} {word}, {NUMBER} mm apart, run {COMPONENTS}$", word):
            step = [p - q for p, q in zip(plan.centre(step, plan.taught), plan.centre((0, 0), plan.taught))]
            said.number(word, match[1], plan.counts()[which], 0)
            said.number(f"the pitch of {word}", match[2], size(step) * 1000, 0.0006)
            said.direction(word, match.groups()[2:], [part / size(step) for part in step])
    tool(plan, said)
    seat_axis(plan, said)
    nests(plan, said)
    return said


def tool(plan, said):
    if match := said.found(r"^  The tool's z axis points (.*)\.$", "the tool"):
        off = plan.tool_from_into_plan()
        words = "into" if off < 45 else "out of" if off > 135 else "along"
        said.word("the tool", re.match(r"(squarely )?(into|out of|along)", match[1].lower())[2], words)
        printed = re.search(rf"{NUMBER} deg", match[1])
        said.number("the tool's angle", printed[1] if printed else 0, 180 - off if words == "out of" else off, 0.06)


def seat_axis(plan, said):
    if match := said.found(r"^  The seat axis (.*)\.$", "the seat axis"):
        rise = plan.rise()
        said.word("the seat axis", match[1].split()[0].lower(), "is" if abs(rise) < 0.5 else "rises" if rise > 0 else "falls")
        printed = re.search(rf"{NUMBER} deg", match[1])
        said.number("its rise", printed[1] if printed else 0, abs(rise), 0.06 if printed else 0.5)


def nests(plan, said):
    lines = re.findall(rf"^(\d+),(\d+) +{NUMBER}  {NUMBER}  {NUMBER} +{NUMBER}  {NUMBER}  {NUMBER}$", said.text, re.MULTILINE)
    said.word("which nests are stated", [(int(line[0]), int(line[1])) for line in lines], plan.corners())
    for line in lines:
        nest = int(line[0]), int(line[1])
        for printed, inches, expected in zip(line[2:5], line[5:8], plan.centre(nest, plan.taught)):
            said.number(f"nest {nest}", printed, expected * 1000, 0.0006)
            said.number(f"nest {nest} in inches", inches, expected / length("1 in"), 0.00006)


def make(folder):
    for name, content in FIXTURES.items():
        os.makedirs(os.path.join(folder, name), exist_ok=True)
        with open(os.path.join(folder, name, "r0001.json"), "w", encoding="utf-8") as file:
            json.dump({"fixture": name, "revision": 1, **content}, file)
        print(name)


def main(what, folder):
    if what == "make":
        make(folder)
        return
    count, differs = 0, []
    for name in FIXTURES:
        with open(os.path.join(folder, name, "check.txt"), encoding="utf-8") as file:
            said = compare(name, file.read())
        count, differs = count + said.count, differs + said.differs
    print(json.dumps({"compared": count, "differs": differs}))


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2])
