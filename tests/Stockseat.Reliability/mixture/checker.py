"""All rules over one history and its ledgers."""
import ledgers as reading
import moment_rules
import reply_rules
import standing_rules
from replay import Replay


def check(events, ledgers):
    """Every broken rule, as (rule, text). No code of the service takes part in this judgement."""
    found = list(reading.chain_faults(ledgers)) + list(reading.carried_faults(ledgers))
    replay = Replay(ledgers)
    for rules in (reply_rules.faults(events, replay), standing_rules.faults(replay), moment_rules.faults(events, replay)):
        found += rules
    return found
