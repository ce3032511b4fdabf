"""The service as a process that is killed, stopped and started again, with its clock and its disk."""
import contextlib
import json
import os
import re
import selectors
import signal
import subprocess
import threading

PATIENCE = 60
# One address for each client, so that the configuration can distinguish them.
ADDRESSES = {"lathe-1": "127.0.0.11", "lathe-2": "127.0.0.12", "gauge-station": "127.0.0.13", "hasty-gauge": "127.0.0.14", "office": "127.0.0.1"}
HASTY_RATE = 4


class World:
    """FOLDER has config/ as shipped; data/ is made beside it. If data/ is a file system of its own, it can be filled."""

    def __init__(self, program, folder, faketime, ports, settle):
        self.program, self.folder, self.faketime = program, folder, faketime
        self.data, self.config = os.path.join(folder, "data"), os.path.join(folder, "config", "mixture.json")
        self.up, self.process, self.grpc, self.line = threading.Event(), None, None, None
        self.ended, self.offset = False, 0.0
        os.makedirs(self.data, exist_ok=True)
        self.has_disk = os.path.ismount(self.data)
        self._write_config(ports, settle)

    def _write_config(self, ports, settle):
        with open(os.path.join(self.folder, "config", "stockseat.schema.json"), encoding="utf-8") as file:
            known = file.read()
        # What a port does right after connecting keeps its default unless stated, or is turned off.
        further = {key: "00:00:00" for key in ("Settle", "Apart") if settle == "off" and f'"{key}"' in known}
        client = lambda name, roles, **more: {"Name": name, "From": [ADDRESSES[name]], "Roles": roles, **more}  # noqa: E731
        port = lambda name, fixture, readings, at: {  # noqa: E731
            "Name": name, "Gauge": "bench-2", "Fixture": fixture, "Connect": f"127.0.0.1:{at}", "Readings": readings, "Within": "00:00:20",
            "Pattern": r"(?<reading>[0-9]{2,3}\.[0-9]{4})", **further}
        gauge = {"Unit": "mm", "Resolution": "0.01 mm", "LimitsOfError": "0.03 mm", "Agreement": "0.10 mm"}
        with open(self.config, "w", encoding="utf-8") as file:
            json.dump({
                "Listen": {"Grpc": "127.0.0.1:0", "Line": "127.0.0.1:0", "Page": "127.0.0.1:0"}, "Fixtures": "fixtures", "Data": "../data", "FirstAdoption": "automatic",
                "Ledger": {"RollAt": "2 MB"},
                "Clients": [
                    client("lathe-1", ["locate"], Cell="shafts"), client("lathe-2", ["locate"], Cell="flanges"), client("gauge-station", ["measure"]),
                    client("hasty-gauge", ["measure"], Rate=HASTY_RATE), client("office", ["locate", "measure", "review", "calibrate"]),
                ],
                "Gauges": {"bench-2": {**gauge, "Freshness": "00:00:06"}, "bench-3": {**gauge, "Freshness": "00:10:00"}},
                "Lots": {"A1077": {"Nominal": "92.5 mm", "Tolerance": "h11"}},
                "ReadingPorts": [port("saw-gauge", "veerack-2", 2, ports["saw-gauge"]), port("side-gauge", "rollers-3", 1, ports["side-gauge"])],
            }, file)

    def start(self):
        self._write_clock()
        environment = {k: v for k, v in os.environ.items() if not k.startswith("STOCKSEAT_")}
        if self.faketime:
            # Only the clock is set, as a person would set it; the counter beside it continues.
            environment |= {"LD_PRELOAD": self.faketime, "FAKETIME_TIMESTAMP_FILE": self._clock}
            environment |= {"FAKETIME_NO_CACHE": "1", "FAKETIME_DONT_FAKE_MONOTONIC": "1"}
        with open(os.path.join(self.folder, "service.log"), "ab") as log:
            self.process = subprocess.Popen(
                [self.program, "serve", "--config", self.config, "--data", self.data],
                stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=log, env=environment)
        ready = re.match(r"ready grpc=(\S+) line=(\S+)", self._first_line())
        if ready is None:
            raise RuntimeError("the service did not become ready; service.log says why")
        self.grpc, (host, port) = ready[1], ready[2].rsplit(":", 1)
        self.line = (host, int(port))
        self.up.set()

    def _first_line(self):
        with selectors.DefaultSelector() as selector:
            selector.register(self.process.stdout, selectors.EVENT_READ)
            return self.process.stdout.readline().decode("ascii", "replace") if selector.select(PATIENCE) else ""

    def end(self, kill):
        """Ends the process, by a kill or as a supervisor stops it; returns the exit code."""
        self.up.clear()
        if self.process is None:
            return 0
        self.process.send_signal(signal.SIGKILL if kill else signal.SIGTERM)
        try:
            return self.process.wait(PATIENCE)
        finally:
            if self.process.poll() is None:
                self.process.kill()
                self.process.wait(PATIENCE)
            self.process.stdout.close()
            self.process = None

    def wait_up(self):
        """Waits until there is a service to talk to; false when the run is over."""
        while not self.ended:
            if self.up.wait(0.1):
                return True
        return False

    def step_clock(self, seconds):
        self.offset += seconds
        self._write_clock()

    @property
    def _clock(self):
        return os.path.join(self.folder, "clock")

    def _write_clock(self):
        with open(f"{self._clock}.part", "w", encoding="ascii") as file:
            file.write(f"{self.offset:+.3f}\n")
        os.replace(f"{self._clock}.part", self._clock)

    @contextlib.contextmanager
    def full_disk(self):
        """Fills the disk to the last page, again and again, since the recovery makes room; frees it afterwards."""
        over = threading.Event()

        def shrink():
            while not over.is_set():
                now = os.statvfs(self.data)
                self._remount((now.f_blocks - now.f_bfree) * now.f_frsize)
                over.wait(0.05)

        filler = threading.Thread(target=shrink, daemon=True)
        filler.start()
        try:
            yield
        finally:
            over.set()
            filler.join()
            self._remount(1 << 30)

    def _remount(self, size):
        # Fails when more was written meanwhile: the next attempt succeeds.
        subprocess.run(["mount", "-o", f"remount,size={max(size, 4096)}", self.data], capture_output=True, check=False, timeout=PATIENCE)

    def publish(self, number):
        """A revision of pinbed-1, moved a little from the previous one; the file appears complete."""
        folder = os.path.join(self.folder, "config", "fixtures", "pinbed-1")
        with open(os.path.join(folder, "r0003.json"), encoding="utf-8") as file:
            text = file.read()
        for old, new in (('"revision": 3', f'"revision": {number}'), ('"y": "-205.00 mm"', f'"y": "{-205 + 0.01 * (number - 3):.2f} mm"')):
            assert old in text, old
            text = text.replace(old, new)
        half = os.path.join(self.folder, "revision.part")
        with open(half, "w", encoding="utf-8") as file:
            file.write(text)
        os.replace(half, os.path.join(folder, f"r{number:04}.json"))
