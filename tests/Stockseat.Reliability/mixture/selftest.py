"""Each rule has a falsified history whose fault the checker has to name; a sound history breaks no rule.

The same seed gives the same plan. So the checker stays able to fail.

python3 selftest.py: prints one line a fault; exit code 1 when an expected fault was not named, or a rule has no case.
"""
import pathlib
import re
import sys

import checker
import plan
from doctored import CASES
from sound_story import Story


def rules_in_the_sources():
    found = set()
    for file in ("ledgers.py", "reply_rules.py", "standing_rules.py", "moment_rules.py"):
        found |= set(re.findall(r'yield "([a-z-]+)", ', (pathlib.Path(__file__).parent / file).read_text(encoding="utf-8")))
    return found


def main():
    sound = Story()
    faults = [f"a sound history breaks {rule}: {text}" for rule, text in checker.check(sorted(sound.events, key=lambda e: e.sent), sound.ledgers())]
    for rule, doctor in CASES:
        story = sound.copy()
        doctor(story)
        broken = checker.check(sorted(story.events, key=lambda e: e.sent), story.ledgers())
        named = [text for found, text in broken if found == rule]
        print(f"{rule}, {doctor.__name__}: {named[0] if named else 'NOT NAMED'}")
        if not named:
            faults.append(f"{doctor.__name__} should break {rule}; the broken rules are {sorted({r for r, _ in broken})}")
    faults += [f"rule {rule} has no case" for rule in sorted(rules_in_the_sources() - {rule for rule, _ in CASES})]
    if plan.fingerprint(7, 60) != plan.fingerprint(7, 60) or plan.fingerprint(7, 60) == plan.fingerprint(8, 60):
        faults.append("two seeds give the same plan, or one seed gives different plans")
    if {kind for kind, _, _ in plan.faults(7, 1)} != set(plan.FAULTS):
        faults.append("a short plan leaves faults out")
    print("\n".join(faults), file=sys.stderr)
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main()
