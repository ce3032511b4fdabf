"""A cell in a plane, written from the documents alone: real circles against real pins, a gripper that picks where it was told,
blanks of random diameters, mixed and partial trays, pauses, lost replies, asks sent twice, a service that is killed, and a
person who refills. Whatever happens, no nest is picked twice, no pick finds air, no place finds a full nest, and the gripper
is where the stock is.

The program is told of the nests only by the service; the world alone knows what stands in them, and counts.

Usage: load_world.py PROGRAM FOLDER LOADS SEED. FOLDER has config/stockseat.json and config/fixtures/pinbed-1/r0003.json.
Prints one JSON object; exit code 0 when nothing went wrong.
"""
import json
import math
import os
import random
import re
import signal
import socket
import subprocess
import sys

PATIENCE = 30
PIN, SPACING = 0.012, 0.060          # config/fixtures/pinbed-1/r0003.json, in metres.
COLUMNS, ROWS, PITCH_U, PITCH_V = 6, 4, 0.125, 0.130
TAUGHT, STAND_OFF_PICK, STAND_OFF_PLACE, GAP = 0.080, 0.0003, 0.0005, 0.002
POSITION = (0.4123, -0.2050, 0.1180)
SEAT_AXIS, NORMAL = (-0.576, 0.768, 0.28), (0.168, -0.224, 0.96)
LOCATOR, PIN_WITHIN, TEACHING, SEATING, ROBOT, GAUGE = 0.00010, 0.00002, 0.00015, 0.00010, 0.00005, 0.00003  # Its "uncertainty", and the gauge's limit.


def cross(a, b):
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def dot(a, b):
    return sum(x * y for x, y in zip(a, b))


ACROSS = cross(SEAT_AXIS, NORMAL)


def seat(pins, radius):
    """The centre of a circle that rests on two pins: on the side of the seat axis (two circles around the pins' centres meet there)."""
    (u1, v1, r1), (u2, v2, r2) = pins
    a, b = radius + r1, radius + r2
    du, dv = u2 - u1, v2 - v1
    d = math.hypot(du, dv)
    along = (a * a - b * b + d * d) / (2 * d)
    height = math.sqrt(a * a - along * along)
    return (u1 + along * du / d - height * dv / d, v1 + along * dv / d + height * du / d)


class World:
    """What is really there."""

    def __init__(self, rng):
        self.rng = rng
        wrong = lambda limit: rng.uniform(-limit, limit)
        self.pins = {}
        for c in range(COLUMNS):
            for r in range(ROWS):
                at = (c * PITCH_U, r * PITCH_V)
                self.pins[c, r] = [(at[0] + side * SPACING / 2 + wrong(LOCATOR), at[1] + wrong(LOCATOR), (PIN + wrong(PIN_WITHIN)) / 2) for side in (-1, 1)]
        # The origin was taught where the master of nest 0,0 really was, as well as a person can.
        real = seat(self.pins[0, 0], TAUGHT / 2)
        believed = seat([(-SPACING / 2, 0, PIN / 2), (SPACING / 2, 0, PIN / 2)], TAUGHT / 2)
        self.off = (real[0] - believed[0] + wrong(TEACHING), real[1] - believed[1] + wrong(TEACHING))
        self.origin = (believed[0], believed[1])
        self.nests = {}

    def fill(self, blanks):
        self.nests = dict(blanks)

    def miss(self, nest, stock, stand_off, answer):
        """From where the stock is to where the gripper was sent, across and along, in the plan."""
        sent = tuple(float(answer[k]) - p for k, p in zip("xyz", POSITION))
        told = (dot(sent, ACROSS) + self.origin[0], dot(sent, SEAT_AXIS) + self.origin[1])  # As the plan of the fixture sees it.
        u, v = seat(self.pins[nest], stock / 2 + stand_off)
        u, v = u - self.off[0] + self.rng.uniform(-SEATING, SEATING) / 2, v - self.off[1] + self.rng.uniform(-SEATING, SEATING) / 2
        robot = (self.rng.gauss(0, ROBOT / 2), self.rng.gauss(0, ROBOT / 2))
        return told[0] + robot[0] - u, told[1] + robot[1] - v

    def gap(self, nest):
        """The smallest gap from the stock in a nest to the stock in all others."""
        u, v = seat(self.pins[nest], self.nests[nest] / 2)
        return min((math.hypot(u - x, v - y) - (self.nests[nest] + d) / 2
                    for other, d in self.nests.items() if other != nest for x, y in [seat(self.pins[other], d / 2)]), default=1)


class Service:
    def __init__(self, program, folder):
        self.program, self.folder, self.process = program, folder, None

    def start(self):
        environment = {k: v for k, v in os.environ.items() if not k.startswith("STOCKSEAT_")}
        environment |= {f"STOCKSEAT_LISTEN_{name}": "127.0.0.1:0" for name in ("GRPC", "LINE", "PAGE")}
        self.process = subprocess.Popen(
            [self.program, "serve", "--config", os.path.join(self.folder, "config", "stockseat.json"), "--data", os.path.join(self.folder, "data")],
            stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, env=environment, text=True)
        ready = re.search(r" line=(\S+):(\d+)", self.process.stdout.readline())
        if ready is None:
            sys.exit("the service did not become ready")
        self.address = (ready[1], int(ready[2]))

    def stop(self, kill):
        self.process.send_signal(signal.SIGKILL if kill else signal.SIGTERM)
        self.process.wait(PATIENCE)
        self.process.stdout.close()


class Controller:
    """A program that knows only what the documents say."""

    def __init__(self, service):
        self.service, self.socket = service, None

    def ask(self, line, lose=False):
        if self.socket is None:
            self.socket = socket.create_connection(self.service.address, PATIENCE)
            self.replies = self.socket.makefile("r", encoding="ascii", newline="\n")
        self.socket.sendall(f"{line}\n".encode("ascii"))
        if lose:
            self.close()
            return None
        reply = self.replies.readline().strip()
        if not reply.startswith(("ok", "refused")):
            sys.exit(f"{line}: the reply was {reply!r}")
        return reply

    def close(self):
        if self.socket is not None:
            self.replies.close()
            self.socket.close()
            self.socket = None

    def expect(self, line, word="ok"):
        reply = self.ask(line)
        if not reply.startswith(word):
            sys.exit(f"{line}: the reply was {reply!r}; {word} was expected")
        return dict(re.findall(r"(\w+)=(\S+)", reply))


class Cell:
    def __init__(self, program, folder, loads, seed):
        self.rng = random.Random(seed)
        self.service, self.loads = Service(program, folder), loads
        self.controller = Controller(self.service)
        self.seen = {name: 0 for name in ("loads", "picks", "places", "paused", "lost", "double", "killed", "mixed", "within", "air", "full", "beyond", "close")}
        self.world = None

    def run(self):
        self.service.start()
        try:
            for _ in range(self.loads):
                self.one()
        finally:
            if self.service.process.poll() is None:
                self.service.stop(kill=False)
        return self.seen

    def measured(self, diameter, more=""):
        shown = diameter + self.rng.uniform(-GAUGE, GAUGE)
        self.controller.expect(f"measured fixture=pinbed-1 diameter={shown * 1000:.2f}mm gauge=bench-2{more}")

    def one(self):
        """A person fills the nests and says so; the controller empties them."""
        self.seen["loads"] += 1
        rng = self.rng
        self.world = World(rng)
        self.controller.expect("emptied fixture=pinbed-1")
        stock, other = rng.uniform(0.086, 0.094), rng.uniform(0.086, 0.094)
        order = [(c, r) for r in range(ROWS) for c in range(COLUMNS)]
        count = rng.randint(1, 5)
        first = rng.random() < 0.5
        nests = order[:count] if first else sorted(rng.sample(order, count), key=order.index)
        mixed = {n for n in nests if rng.random() < 0.3} if rng.random() < 0.5 else set()
        self.world.fill({n: other if n in mixed else stock for n in nests})
        self.measured(stock)
        which = f"first={count}" if first else 'nests="' + " ".join(f"{c},{r}" for c, r in rng.sample(nests, count)) + '"'
        self.controller.expect(f"loaded fixture=pinbed-1 {which}")
        for column, row in mixed:
            self.measured(other, f" nest={column},{row}")
            self.seen["mixed"] += 1
        while self.next():
            pass
        if any(d > 0 for d in self.world.nests.values()):
            sys.exit(f"the load has ended with stock in {self.world.nests}")

    def next(self):
        rng, controller = self.rng, self.controller
        if rng.random() < 0.02:
            controller.close()
            self.service.stop(kill=True)
            self.service.start()
            self.seen["killed"] += 1
        lost = rng.random() < 0.05
        if lost:
            controller.ask("next fixture=pinbed-1", lose=True)
            self.seen["lost"] += 1
            self.settle(moved=None)
        reply = controller.ask("next fixture=pinbed-1")
        if lost and "reason=move-unfinished" in reply:
            self.settle(moved=None)  # The ask whose reply was lost was decided only now.
            reply = controller.ask("next fixture=pinbed-1")
        if "reason=load-empty" in reply:
            return False
        if not reply.startswith("ok"):
            sys.exit(f"next: the reply was {reply!r}")
        answer = dict(re.findall(r"(\w+)=(\S+)", reply))
        if rng.random() < 0.1:
            self.seen["double"] += 1
            again = controller.ask("next fixture=pinbed-1")
            if f"answer {answer['serial']}," not in again or "move-unfinished" not in again:
                sys.exit(f"asked twice, the reply was {again!r}")
        controller.expect(f"confirm serial={answer['serial']} bx={answer['bx']} by={answer['by']} bz={answer['bz']}")
        pause = rng.random()
        if pause < 0.05:
            self.seen["paused"] += 1
            self.settle(moved=False)
            return True
        self.pick(answer)
        if pause < 0.1:
            self.seen["paused"] += 1
            if pause < 0.07:
                controller.close()
                self.service.stop(kill=True)
                self.service.start()
                self.seen["killed"] += 1
            self.settle(moved=True)
        else:
            controller.expect(f"done serial={answer['serial']}")
        if rng.random() < 0.1:
            self.place()
        return True

    def settle(self, moved):
        """After a pause the program asks, and a person who has looked says which it was; moved=None: the reply was lost before anything moved."""
        status = self.controller.expect("status fixture=pinbed-1")
        if "unfinished" not in status:
            if moved is None:
                return  # Nothing was left to give, or the ask never arrived.
            sys.exit(f"nothing is unfinished: {status}")
        self.controller.expect(f"{'done' if moved else 'dropped'} serial={status['unfinished']}")

    def pick(self, answer):
        self.seen["picks"] += 1
        nest = tuple(int(n) for n in answer["nest"].split(","))
        stock = self.world.nests.get(nest)
        if stock is None:
            self.seen["air"] += 1
            return
        self.seen["close"] += self.world.gap(nest) < GAP - 3 * GAUGE
        self.judge(self.world.miss(nest, stock, STAND_OFF_PICK, answer), answer)
        del self.world.nests[nest]

    def judge(self, miss, answer):
        across, along = abs(miss[0]) / float(answer["uacross"]), abs(miss[1]) / float(answer["ualong"])
        self.seen["within"] += across <= 1 and along <= 1
        self.seen["beyond"] += across > 3 or along > 3

    def place(self):
        """A finished piece comes back into an empty nest, and a person takes it away at once."""
        diameter = self.rng.uniform(0.080, 0.085)
        reply = self.controller.ask(f"next fixture=pinbed-1 purpose=place diameter={diameter * 1000:.2f}mm")
        if not reply.startswith("ok"):
            return
        answer = dict(re.findall(r"(\w+)=(\S+)", reply))
        nest = tuple(int(n) for n in answer["nest"].split(","))
        self.seen["places"] += 1
        self.seen["full"] += nest in self.world.nests
        self.controller.expect(f"confirm serial={answer['serial']} bx={answer['bx']} by={answer['by']} bz={answer['bz']}")
        self.controller.expect(f"done serial={answer['serial']}")
        self.world.nests[nest] = -diameter  # Not raw stock: the program is never sent there again.


if __name__ == "__main__":
    seen = Cell(sys.argv[1], sys.argv[2], int(sys.argv[3]), int(sys.argv[4])).run()
    print(json.dumps(seen))
    sys.exit(1 if seen["air"] or seen["full"] or seen["beyond"] or seen["close"] else 0)
