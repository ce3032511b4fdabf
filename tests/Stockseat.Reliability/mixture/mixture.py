"""A random mixture of clients, gauges, kills, rolls, clock steps and outages against the real program.

The result is checked by independent rules, written from the documents.

python3 mixture.py PROGRAM FOLDER STUBS --seed N --seconds S [--faketime LIBRARY]

FOLDER has config/ as shipped; where FOLDER/data is a tmpfs of its own, the disk is filled too. Prints the seed first,
some lines for each broken rule, and one JSON object last. Exit code 1: a rule is broken. A seed gives the same plan
again, though not the same interleaving.
"""
import argparse
import collections
import json
import subprocess
import sys

import checker
import ledgers
import plan
from actors import Actors
from conductor import Conductor
from history import History
from talking import BareGauge
from world import PATIENCE, World

PORTS = ("saw-gauge", "side-gauge")
SHOWN = 5


def play(asked):
    """Plays the mixture; returns the history, what happened, and what went wrong in the run itself."""
    history = History()
    gauges = {name: BareGauge(history, name) for name in PORTS}
    settle = plan.Steps(asked.seed, "world").pick("off", "usual")
    world = World(asked.program, asked.folder, asked.faketime, {name: gauge.port for name, gauge in gauges.items()}, settle)
    actors = Actors(world, history, gauges, asked.stubs, asked.seed)
    conductor = Conductor(world, history, gauges, asked.stubs, actors)
    faults = []
    try:
        world.start()
        actors.start()
        conductor.run(plan.faults(asked.seed, asked.seconds), asked.seconds)
    finally:
        world.ended = True
        code = world.end(kill=False)
        actors.join()
        for gauge in gauges.values():
            gauge.close()
    if code != 0:
        faults.append(("stop", f"the last stop ended with exit code {code}"))
    faults += [("actor", text) for text in actors.failures] + conductor.faults
    return history.all(), dict(conductor.happened), world.data, faults


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("folder")
    parser.add_argument("stubs")
    parser.add_argument("--seed", type=int, required=True)
    parser.add_argument("--seconds", type=float, required=True)
    parser.add_argument("--faketime", default="")
    asked = parser.parse_args()
    print(f"seed {asked.seed}, plan {plan.fingerprint(asked.seed, asked.seconds)}", flush=True)
    events, happened, data, faults = play(asked)
    found = ledgers.read(data)
    broken = faults + checker.check(events, found)
    # The service's own verification; it does not count for the verdict of the rules.
    own = subprocess.run([asked.program, "ledger", "verify", "--data", data], capture_output=True, text=True, timeout=10 * PATIENCE, check=False)
    if own.returncode != 0:
        broken.append(("verify", f"ledger verify ended with {own.returncode}: {own.stdout[-500:]}{own.stderr[-500:]}"))
    rules = collections.Counter(rule for rule, _ in broken)
    for rule in rules:
        for _, text in [b for b in broken if b[0] == rule][:SHOWN]:
            print(f"broken: {rule}: {text}")
    print(json.dumps({
        "seed": asked.seed, "happened": happened, "ledgers": len(found), "entries": sum(len(ledger.rows) for ledger in found),
        "acknowledged": dict(collections.Counter(e.verb for e in events if e.ok)),
        "refused": dict(collections.Counter(e.reason for e in events if e.verdict == "refused")),
        "unknown": sum(1 for e in events if not e.verdict and e.verb != "reading"), "broken": dict(rules)}))
    sys.exit(1 if broken else 0)


if __name__ == "__main__":
    main()
