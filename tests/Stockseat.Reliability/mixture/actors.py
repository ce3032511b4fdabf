"""The actors of the cell: each does its own steps until the run is over."""
import threading
import time

from plan import FIXTURES, SIZES, Steps
from talking import Line, Office


class Actors:
    """All actors, each in a thread of its own."""

    def __init__(self, world, history, gauges, stubs, seed):
        self.world, self.history, self.gauges, self.stubs, self.seed = world, history, gauges, stubs, seed
        self.failures, self.adopted, self._adopting = [], 3, threading.Lock()
        work = [(self._controller, "lathe-1"), (self._controller, "lathe-2"), (self._gauge, "gauge-station")]
        work += [(self._setter, "setter-1"), (self._setter, "setter-2"), *((self._bare, name) for name in gauges)]
        self._threads = [threading.Thread(target=self._run, args=one, daemon=True) for one in work]

    def start(self):
        for thread in self._threads:
            thread.start()

    def join(self):
        for thread in self._threads:
            thread.join(60)
            if thread.is_alive():
                self.failures.append(f"{thread} does not end")

    def _run(self, work, name):
        try:
            work(name, Steps(self.seed, name))
        except Exception as failure:  # reported with the verdict, so that the failure is not overlooked
            self.failures.append(f"{name}: {failure!r}")

    def _controller(self, name, steps):
        line = Line(self.world, self.history, name)
        while self.world.wait_up():
            lines, confirms, pause = steps.controller()
            asked = [line.ask(verb, fixture, rest, tag, **({"lot": "A1077"} if "lot=" in rest else {})) for verb, fixture, rest, tag in lines]
            answers = [event for event in line.say(*asked) if event.ok and event.verb == "locate"]
            if confirms and answers:
                read = [(e.fields["serial"], " ".join(f"{n}={e.fields[n]}" for n in ("bx", "by", "bz"))) for e in answers]
                line.say(*(line.ask("confirm", "", f"serial={serial} {shift}", steps.tag(), confirms=serial) for serial, shift in read))
                line.say(*(line.ask("done", "", f"serial={serial}", steps.tag()) for serial, _ in read))
            time.sleep(pause)
        line.close()

    def _gauge(self, name, steps):
        line = Line(self.world, self.history, name)
        while self.world.wait_up():
            fixture, rest, tag, pause = steps.gauge()
            line.say(line.ask("measured", fixture, rest, tag))
            time.sleep(pause)
        line.close()

    def _bare(self, name, steps):
        gauge, fixture = self.gauges[name], {"saw-gauge": "veerack-2", "side-gauge": "rollers-3"}[name]
        while self.world.wait_up():
            readings, between, pause = steps.reading(fixture)
            with gauge.turn:
                for reading in readings:
                    gauge.send(reading)
                    time.sleep(between)
            time.sleep(pause)

    def _setter(self, name, steps):
        office = Office(self.world, self.history, self.stubs)
        while self.world.wait_up():
            verb, fixture, by, number, pause, _ = steps.setter()
            self._set(office, verb, fixture, by, number and f"{name}-{fixture}-{by}-{number}")
            time.sleep(pause)
            if verb == "hold" and steps.chance(0.8):
                office.call("release", fixture, by=by, of=by, why="done")
        office.close()

    def _set(self, office, verb, fixture, by, request):
        if verb == "hold":
            office.call("hold", fixture, request, by=by, why="chips are cleared")
        elif verb == "release":
            office.call("release", fixture, request, by=by, of=by, why="done")
        elif verb == "adopt":
            self.adopt(office, request)
        elif verb == "lot":
            office.call("lot", request=request, lot="B7", sent={"nominal_metres": 0.09, "plus_metres": 0.02, "minus_metres": 0.02})
        elif verb == "measured":
            # The same readings for the same id: otherwise it would be another request.
            size = sum(SIZES[fixture]) / 2000 + 0.0001 * (len(request) % 7) + (0.001 * int(request[-1]) if request else 0)
            office.call("measured", fixture, request, sent={"readings_metres": [size], "gauge": "bench-3", "unit": "mm"})
        else:
            office.call(verb, fixture, request)

    def adopt(self, office, request=""):
        """The next revision; with a used id, the revision that the id was used for."""
        with self._adopting:
            again = [e.asked["revision"] for e in self.history.all() if request and e.verb == "adopt" and e.request == request]
            number = again[0] if again else self.adopted + 1
            if not again:
                self.adopted = number
                self.world.publish(number)
        return office.call("adopt", FIXTURES[0], request, revision=number, by="day setter", why="moved a little")
