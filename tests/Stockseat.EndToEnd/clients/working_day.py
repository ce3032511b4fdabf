"""Plays a working day of a cell against the service, over sockets and the command line, with a clock that is set for
the service's process alone.

python3 working_day.py PROGRAM FOLDER LIBFAKETIME [quiet]

FOLDER has config/ as shipped; data/ is made beside it. The last line of the output is one JSON object: the instants to
ask about. With quiet nothing goes wrong. The clock and the counter beside it advance together, so hours pass in
seconds; in the last part of the day only the clock is set, as a person would set it.
"""
import datetime
import json
import os
import re
import signal
import socket
import subprocess
import sys
import time

PATIENCE = 60
DAY = "2026-11-25"


class Cell:
    """The service's process, its clock, and the clients that talk to it."""

    def __init__(self, program, folder, faketime):
        self.program, self.folder, self.faketime = program, folder, faketime
        self.data = os.path.join(folder, "data")
        self.clock = os.path.join(folder, "clock")
        self.config = os.path.join(folder, "config", "day.json")
        self.process = self.grpc = self.line = None
        self.moments = {}
        self.write_config()

    def write_config(self):
        with open(self.config, "w", encoding="utf-8") as file:
            json.dump({
                "Listen": {"Grpc": "127.0.0.1:0", "Line": "127.0.0.1:0", "Page": "127.0.0.1:0"}, "Fixtures": "fixtures", "Data": "../data", "FirstAdoption": "automatic",
                "Clients": [
                    {"Name": "shaft-lathe", "Cell": "shafts", "From": ["127.0.0.11"], "Roles": ["locate"], "Fixtures": ["pinbed-1", "rollers-3"]},
                    {"Name": "flange-lathe", "Cell": "flanges", "From": ["127.0.0.12"], "Roles": ["locate"], "Fixtures": ["veerack-2"]},
                    {"Name": "gauge-station", "From": ["127.0.0.13"], "Roles": ["measure"]},
                    {"Name": "office", "From": ["127.0.0.1"], "Roles": ["review", "calibrate"]},
                ],
                "Gauges": {"bench-2": {"Unit": "mm", "Resolution": "0.01 mm", "LimitsOfError": "0.03 mm", "Agreement": "0.10 mm", "Freshness": "08:00:00"}},
                "Lots": {"A1077": {"Nominal": "92.5 mm", "Tolerance": "h11"}, "B2": {"Nominal": "90 mm", "Plus": "0.8 mm", "Minus": "0.8 mm", "OutOfRound": "0.6 mm"}},
            }, file)

    def at(self, clock):
        """Sets the clock of the service's process."""
        half = self.clock + ".part"
        with open(half, "w", encoding="ascii") as file:
            file.write(f"@{DAY} {clock}\n")
        os.replace(half, self.clock)

    def start(self, clock, clock_only=False):
        self.at(clock)
        environment = {k: v for k, v in os.environ.items() if not k.startswith("STOCKSEAT_")}
        environment |= {"TZ": "UTC", "LD_PRELOAD": self.faketime, "FAKETIME_TIMESTAMP_FILE": self.clock, "FAKETIME_NO_CACHE": "1"}
        if clock_only:
            environment["FAKETIME_DONT_FAKE_MONOTONIC"] = "1"
        self.process = subprocess.Popen(
            [self.program, "serve", "--config", self.config, "--data", self.data], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, env=environment, text=True)
        ready = re.match(r"ready grpc=(\S+) line=(\S+)", self.process.stdout.readline())
        if ready is None:
            sys.exit("the service did not become ready")
        self.grpc, (host, port) = ready[1], ready[2].rsplit(":", 1)
        self.line = (host, int(port))

    def stop(self, kill=False):
        self.process.send_signal(signal.SIGKILL if kill else signal.SIGTERM)
        self.process.wait(PATIENCE)
        self.process.stdout.close()

    def run(self, *arguments):
        """A command that somebody in the office runs; returns its standard output."""
        done = subprocess.run([self.program, *arguments, "--server", f"http://{self.grpc}"], capture_output=True, text=True, timeout=PATIENCE, check=False)
        if done.returncode != 0:
            sys.exit(f"{arguments} ended with {done.returncode}: {done.stderr}")
        return done.stdout

    def adopt_when_seen(self, fixture, number, by, why):
        """The service checks its folders by itself: it is asked until it has found the new file."""
        until = time.monotonic() + PATIENCE
        while time.monotonic() < until:
            fixtures = [json.loads(line) for line in self.run("fixture", "list", "--json").splitlines()]
            if any(f.get("fixture") == fixture and number in f.get("waiting", []) for f in fixtures):
                return self.run("fixture", "adopt", fixture, str(number), "--by", by, "--why", why)
            time.sleep(0.1)
        sys.exit(f"revision {number} of {fixture} was never found")


class Talker:
    """A controller or a gauge station: lines out, lines in."""

    def __init__(self, cell, address):
        self.cell, self.address, self.tag = cell, address, 0

    def say(self, line, expect):
        """One line on a connection of its own, like a program that starts."""
        self.tag += 1
        with socket.create_connection(self.cell.line, PATIENCE, (self.address, 0)) as connection:
            connection.sendall(f"{line} tag={self.tag}\n".encode("ascii"))
            with connection.makefile("r", encoding="ascii", newline="\n") as replies:
                reply = replies.readline().strip()
        if not reply.startswith(expect):
            sys.exit(f"{line}: the reply was {reply}; {expect} was expected")
        return {**dict(re.findall(r'(\w+)=("[^"]*"|\S+)', reply)), "said": reply}

    def start_program(self, line, confirm=True):
        answer = self.say(f"locate {line}", "ok")
        if confirm:
            self.say(f"confirm serial={answer['serial']} bx={answer['bx']} by={answer['by']} bz={answer['bz']}", "ok")
            self.say(f"done serial={answer['serial']}", "ok")
        return answer


def publish_revision_4(cell):
    folder = os.path.join(cell.folder, "config", "fixtures", "pinbed-1")
    with open(os.path.join(folder, "r0003.json"), encoding="utf-8") as file:
        text = file.read()
    for old, new in (('"revision": 3', '"revision": 4'), ('"y": "-205.00 mm"', '"y": "-203.00 mm"'), ('"note": "bed moved 40 mm"', '"note": "bed moved another 2 mm"')):
        assert old in text, old
        text = text.replace(old, new)
    with open(os.path.join(folder, "r0004.json"), "w", encoding="utf-8") as file:
        file.write(text)


def morning(cell, shafts, flanges, gauge, quiet):
    cell.at("06:05:00")
    gauge.say("measured fixture=rollers-3 diameter=80.20mm gauge=bench-2", "ok")
    cell.at("06:20:00")
    gauge.say("measured fixture=pinbed-1 diameters=92.41mm,92.39mm gauge=bench-2 lot=A1077", "ok")
    cell.at("06:25:00")
    shafts.start_program("fixture=pinbed-1 lot=A1077")
    cell.at("06:40:00")
    shafts.start_program("fixture=pinbed-1 purpose=place diameter=91.8mm nest=2,1")
    cell.at("06:50:00")
    shafts.start_program("fixture=rollers-3")
    cell.at("07:30:00")
    shafts.start_program("fixture=pinbed-1")
    cell.at("08:00:00")
    cell.run("fixture", "hold", "pinbed-1", "--by", "day setter", "--why", "chips are cleared")
    if not quiet:
        cell.at("08:02:00")
        shafts.say("locate fixture=pinbed-1", "refused")
    cell.at("08:05:00")
    cell.run("fixture", "release", "pinbed-1", "--by", "day setter", "--why", "done")
    cell.at("08:06:00")
    shafts.start_program("fixture=pinbed-1")
    cell.at("09:00:00")
    shafts.say("emptied fixture=pinbed-1", "ok")
    cell.at("09:04:00")
    gauge.say("measured fixture=pinbed-1 diameters=90.10mm,90.14mm gauge=bench-2 lot=B2", "ok")
    cell.at("09:06:00")
    shafts.start_program("fixture=pinbed-1 lot=B2")
    cell.at("09:40:00")
    gauge.say("measured fixture=veerack-2 diameter=3.004in gauge=bench-2", "ok")
    cell.at("09:42:00")
    flanges.start_program("fixture=veerack-2")


def midday(cell, shafts, gauge, quiet):
    if not quiet:
        publish_revision_4(cell)
        cell.at("10:30:00")
        cell.adopt_when_seen("pinbed-1", 4, "day setter", "bed moved another 2 mm")
        cell.at("10:32:00")
        cell.moments["unconfirmed"] = shafts.start_program("fixture=pinbed-1", confirm=False)["serial"]
        cell.at("11:00:00")
        shafts.start_program("fixture=pinbed-1")
    cell.at("12:30:00")
    shafts.say("emptied fixture=pinbed-1", "ok")
    cell.at("12:34:00")
    gauge.say("measured fixture=pinbed-1 diameter=92.38mm gauge=bench-2 lot=A1077", "ok")
    cell.at("12:36:00")
    shafts.start_program("fixture=pinbed-1 lot=A1077")
    if not quiet:
        cell.at("14:10:00")
        shafts.say("locate fixture=rollers-3", "refused")
    cell.at("14:12:00")
    gauge.say("measured fixture=rollers-3 diameter=80.20mm gauge=bench-2", "ok")
    cell.at("14:13:00")
    shafts.start_program("fixture=rollers-3")


def afternoon(cell, shafts, gauge):
    """Only the clock is set here: the service notices."""
    shafts.start_program("fixture=pinbed-1")
    cell.at("14:15:00")
    shafts.say("locate fixture=pinbed-1", "refused")
    gauge.say("measured fixture=pinbed-1 diameter=92.38mm gauge=bench-2 lot=A1077", "ok")
    answer = shafts.say("locate fixture=pinbed-1 lot=A1077", "ok")
    misread = f"{float(answer['by']) + 0.0001:.6f}"
    shafts.say(f"confirm serial={answer['serial']} by={misread}", "refused")
    cell.moments |= {"last": answer["serial"], "served": answer["by"], "read": misread}


def last_instant(cell):
    """The instant of the last entry, as a controller's own log would have the instant of the crash."""
    newest = json.loads(cell.run("ledger", "tail", "--count", "1", "--json"))
    return newest["body"]["at"]


def main(program, folder, faketime, quiet):
    cell = Cell(program, folder, faketime)
    shafts, flanges, gauge = Talker(cell, "127.0.0.11"), Talker(cell, "127.0.0.12"), Talker(cell, "127.0.0.13")
    try:
        cell.start("06:00:00")
        morning(cell, shafts, flanges, gauge, quiet)
        midday(cell, shafts, gauge, quiet)
        cell.moments["before_restart"] = last_instant(cell)
        cell.stop()
        if not quiet:
            cell.start("14:35:00", clock_only=True)
            afternoon(cell, shafts, gauge)
            crash = datetime.datetime.fromisoformat(last_instant(cell).replace("Z", "+00:00")) + datetime.timedelta(seconds=1)
            cell.moments["crash"] = crash.isoformat().replace("+00:00", "Z")
            cell.stop(kill=True)
            cell.start("14:40:00")
            cell.stop()
    finally:
        if cell.process is not None and cell.process.poll() is None:
            cell.process.kill()
            cell.process.wait(PATIENCE)
    print(json.dumps(cell.moments))


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], sys.argv[3], sys.argv[4:] == ["quiet"])
