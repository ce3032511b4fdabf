"""Where stock comes to rest, in base, worked out from a revision's values with the mathematics of the documents
(config/README.md): seats by Newton's method on the two contact equations, axes as matrices. It shares nothing with the
program. Lengths in metres, angles in radians.
"""
from math import acos, atan2, cos, degrees, hypot, pi, radians, sin, sqrt

UNITS = {"mm": 0.001, "m": 1.0, "um": 1e-6, "in": 0.0254}


def length(text):
    """Metres, from a text such as "12.7 mm"."""
    number, unit = text.split()
    return float(number) * UNITS[unit]


def angle(text):
    """Radians, from a text such as "25 deg" or "0.4 rad"."""
    number, unit = text.split()
    return radians(float(number)) if unit == "deg" else float(number)


def plus(*many):
    return tuple(sum(parts) for parts in zip(*many))


def scaled(factor, a):
    return tuple(factor * part for part in a)


def minus(a, b):
    return tuple(p - q for p, q in zip(a, b))


def dot(a, b):
    return sum(p * q for p, q in zip(a, b))


def cross(a, b):
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def size(a):
    return sqrt(dot(a, a))


def unit(a):
    return scaled(1 / size(a), a)


def columns(rows):
    return tuple(zip(*rows))


def product(a, b):
    return tuple(tuple(dot(row, column) for column in columns(b)) for row in a)


def about(axis, by):
    """The matrix of a turn about an axis (Rodrigues)."""
    x, y, z = unit(axis)
    c, s = cos(by), sin(by)
    return (
        (c + x * x * (1 - c), x * y * (1 - c) - z * s, x * z * (1 - c) + y * s),
        (y * x * (1 - c) + z * s, c + y * y * (1 - c), y * z * (1 - c) - x * s),
        (z * x * (1 - c) - y * s, z * y * (1 - c) + x * s, c + z * z * (1 - c)))


def turns(value):
    """Three turns, each about the axes as already turned."""
    first, second, third = (angle(value[key]) for key in ("aboutZ", "thenY", "thenX"))
    return product(product(about((0, 0, 1), first), about((0, 1, 0), second)), about((1, 0, 0), third))


def orientation(value):
    if "aboutZ" in value:
        return turns(value)
    if "axis" in value:
        return about([value["axis"][n] for n in "xyz"], angle(value["angle"]))
    w, x, y, z = (value[n] for n in "wxyz")
    return about((x, y, z), 2 * atan2(size((x, y, z)), w)) if size((x, y, z)) else about((1, 0, 0), 0.0)


def axes(frame):
    """u, v, w of the plan in base."""
    if "aboutZ" in frame:
        return columns(turns(frame))
    v, normal = unit([frame["seatAxis"][n] for n in "xyz"]), unit([frame["normal"][n] for n in "xyz"])
    w = unit(minus(normal, scaled(dot(normal, v), v)))
    return cross(v, w), v, w


def locators(nest):
    """Two of (u, v, radius, None) for a pin and (u, v, 0, angle of the normal) for a face."""
    if "pins" in nest:
        half, radius = length(nest["pins"]["spacing"]) / 2, length(nest["pins"]["diameter"]) / 2
        return [(-half, 0.0, radius, None), (half, 0.0, radius, None)]
    if "vee" in nest:
        half = angle(nest["vee"]["includedAngle"]) / 2
        return [(0.0, 0.0, 0.0, half), (0.0, 0.0, 0.0, pi - half)]
    found = []
    for each in nest["locators"]:
        (kind, value), = each.items()
        place = length(value["u"]), length(value["v"])
        found.append((*place, length(value["diameter"]) / 2, None) if kind == "pin" else (*place, 0.0, angle(value["normal"])))
    return found


def seat(pair, radius):
    """The centre (u, v) of stock of a radius that touches both locators, on the side of the seat axis; None: there is none."""
    u, v = sum(one[0] for one in pair) / 2, max(one[1] + one[2] for one in pair) + 2 * radius
    for _ in range(100):
        rows = []
        for pu, pv, size_of_pin, normal in pair:
            if normal is None:
                away = hypot(u - pu, v - pv)
                rows.append(((u - pu) / away, (v - pv) / away, away - radius - size_of_pin))
            else:
                rows.append((cos(normal), sin(normal), cos(normal) * (u - pu) + sin(normal) * (v - pv) - radius))
        (a, b, e), (c, d, f) = rows
        turn = a * d - b * c
        if abs(turn) < 1e-9 or hypot(u, v) > 100:
            return None
        du, dv = (e * d - b * f) / turn, (a * f - e * c) / turn
        u, v = u - du, v - dv
        if hypot(du, dv) < 1e-15:
            break
    return (u, v) if max(abs(e), abs(f)) < 1e-12 else None


class Plan:
    """One revision: where the centre of stock is, in each nest, in base."""

    def __init__(self, content):
        self.content, self.pair = content, locators(content["nest"])
        self.u, self.v, self.w = axes(content["frame"])
        taught = content["taught"]
        self.taught, self.position = length(taught["diameter"]), tuple(length(taught["position"][n]) for n in "xyz")
        self.tool = columns(orientation(taught["orientation"]))[2]
        self.layout = [(one["direction"], one["count"], length(one["pitch"])) for one in content.get("layout", [])]
        self.seat_taught = seat(self.pair, self.taught / 2)

    def counts(self):
        return tuple(count for _, count, _ in self.layout) + (1,) * (2 - len(self.layout))

    def corners(self):
        """Nest 0,0 and the far nests, in the order of the documents."""
        across, along = self.counts()
        return [(0, 0)] + [(across - 1, 0)] * (across > 1) + [(0, along - 1)] * (along > 1) + [(across - 1, along - 1)] * (across > 1 and along > 1)

    def centre(self, nest, diameter):
        """None when the stock finds no seat."""
        here = seat(self.pair, diameter / 2)
        if here is None or self.seat_taught is None:
            return None
        u, v = minus(here, self.seat_taught)
        at = plus(self.position, scaled(u, self.u), scaled(v, self.v))
        for (direction, _, pitch), index in zip(self.layout, nest):
            at = plus(at, scaled(index * pitch, {"u": self.u, "v": self.v, "w": self.w}[direction]))
        return at

    def per_diameter(self):
        step = 1e-5
        return scaled(1 / step, minus(self.centre((0, 0), self.taught + step / 2), self.centre((0, 0), self.taught - step / 2)))

    def tool_from_into_plan(self):
        """Degrees between the tool's z axis and the way into the plan."""
        return degrees(acos(max(-1.0, min(1.0, -dot(self.tool, self.w)))))

    def rise(self):
        """Degrees by which the seat axis rises above level, with base z up."""
        return 90 - degrees(acos(max(-1.0, min(1.0, self.v[2]))))
