"""Compares the replies that each client got with the ledger.

Nothing acknowledged is lost, nothing refused takes effect, and every reply follows the documented grammar.
"""
import collections
import re

TEXT = r'text="[\x20-\x21\x23-\x7e]*"'
OK = re.compile(rf"ok( tag=[A-Za-z0-9._-]{{1,40}})?( ({TEXT}|[\x21-\x7e]+))*")
REFUSED = re.compile(rf"refused( tag=[A-Za-z0-9._-]{{1,40}})? class=(request|cell|service) reason=[a-z-]+ {TEXT}")
NUMBER = re.compile(r"-?[0-9]+\.[0-9]{6}")
COORDINATES = ("x", "y", "z", "qw", "qx", "qy", "qz", "bx", "by", "bz", "ox", "oy", "oz")
KINDS = {"locate": "answer", "measured": "measurement", "emptied": "emptied", "confirm": "confirmation", "done": "done", "hold": "held", "release": "released",
         "adopt": "revision-adopted", "lot": "lot-described", "roll": "rolled-over"}
COORDINATE = re.compile(rf"\b({'|'.join(COORDINATES)})=")
SERVED = {"position": ("x", "y", "z"), "orientation": ("qw", "qx", "qy", "qz"), "shiftBase": ("bx", "by", "bz"), "shiftOrigin": ("ox", "oy", "oz")}
SURE = {"along": "ualong", "across": "uacross", "alongWorst": "ualongworst", "acrossWorst": "uacrossworst"}
# Half a micrometre from rounding to six decimals, plus the rounding of a double.
ROUNDED = 0.51e-6


def faults(events, replay):
    for event in events:
        if event.verdict:
            yield from _grammar(event)
    yield from _acknowledged(events, replay)
    yield from _serials(events)
    yield from _tags(events, replay)
    yield from _retries(replay)


def _grammar(event):
    pattern = OK if event.verdict == "ok" else REFUSED
    if event.via == "line" and not pattern.fullmatch(event.line):
        yield "grammar", f"{event.client} got the reply: {event.line}"
    if event.via == "line" and event.fields.get("tag", "") != event.tag:
        yield "grammar", f"the reply to tag {event.tag} has another tag: {event.line}"
    if event.verdict == "refused" and COORDINATE.search(event.line):
        yield "refusal-with-coordinates", f"{event.client} got the reply: {event.line}"
    if event.via == "line" and event.verb == "locate" and event.ok:
        if not event.line.endswith(" end") or not all(NUMBER.fullmatch(event.fields.get(name, "")) for name in COORDINATES):
            yield "grammar", f"an answer is incomplete: {event.line}"


def _acknowledged(events, replay):
    for event in events:
        if not event.ok or event.verb not in KINDS:
            continue
        body = replay.bodies.get(event.serial)
        if body is None:
            yield "lost", f"{event.verb} of {event.client} was acknowledged as entry {event.serial}, which does not exist"
        elif body["kind"] != KINDS[event.verb]:
            yield "lost", f"{event.verb} of {event.client} was acknowledged as entry {event.serial}, which is {body['kind']}"
        else:
            differing = list(_differing(event, body))
            if differing:
                yield "numbers", f"entry {event.serial} and the reply differ in {', '.join(differing)}: {event.line}"


def _differing(event, body):
    """The fields of a reply that differ from its entry."""
    for name in ("fixture", "revision", "purpose", "measurement", "confirms"):
        if name in event.fields and str(body.get(name)) != event.fields[name]:
            yield name
    for name, value in event.asked.items():
        if name in body and str(body[name]) != str(value):
            yield f"{name} as asked"
    if event.fixture and body.get("fixture") != event.fixture:
        yield "fixture as asked"
    if event.tag and not event.request and body.get("tag") != event.tag:
        yield "tag"
    if "diameter" in event.fields and abs(float(event.fields["diameter"]) - body["diameter"]) > ROUNDED:
        yield "diameter"
    if event.verb != "locate":
        return
    for name, parts in SERVED.items():
        if any(abs(float(event.fields[part]) - value) > ROUNDED for part, value in zip(parts, body[name], strict=True)):
            yield name
    for name, part in SURE.items():
        known = body.get("uncertainty", {}).get(name)
        if (known is None) != (part not in event.fields) or (known is not None and not -1e-9 <= float(event.fields[part]) - known <= 1e-6 + 1e-9):
            yield part
    if event.fields["first"] != ("yes" if body["first"] else "no") or event.fields.get("nest") != f"{body['nest'][0]},{body['nest'][1]}":
        yield "first or nest"


def _serials(events):
    """One entry is one outcome, except for a repeated request id.

    Replies on one connection come in the order of their entries.
    """
    owners, last = {}, {}
    for event in events:
        if not event.ok or event.verb not in KINDS:
            continue
        owner = (event.client, event.request or event.tag)
        if owners.setdefault(event.serial, owner) != owner:
            yield "serial-twice", f"entry {event.serial} was the outcome of {owners[event.serial]} and of {owner}"
        if event.via == "line":
            where = (event.client, event.connection)
            before = last.get(where)
            if before and event.serial <= before.serial:
                yield "order", (
                    f"{event.client} got entry {event.serial} ({event.verb} {event.tag}) after {before.serial} ({before.verb} {before.tag})"
                    " on one connection")
            last[where] = event


def _tags(events, replay):
    """The outcome of each tag; each tag was sent once."""
    by_tag = collections.defaultdict(list)
    for body in replay.bodies.values():
        # A refusal without a decision is written later, to void the measurement; it is not an outcome of its own.
        if "tag" in body and "undecided" not in body:
            by_tag[(body.get("client"), body["tag"])].append(body)
    for event in events:
        if not event.tag or event.request:
            continue
        found = by_tag[(event.client, event.tag)]
        if len(found) > 1:
            yield "logged-twice", f"{event.verb} {event.tag} of {event.client} has entries {[b['serial'] for b in found]}"
        elif event.verdict == "refused" and found and found[0]["kind"] != "refusal":
            done = f"entry {found[0]['serial']} is {found[0]['kind']}"
            yield "refused-but-done", f"{event.verb} {event.tag} of {event.client} was refused ({event.reason}), and {done}"
        elif event.verdict == "refused" and found and found[0]["reason"] != event.reason:
            yield "numbers", f"{event.tag} was refused as {event.reason}, entry {found[0]['serial']} says {found[0]['reason']}"
        elif event.verdict == "refused" and not found and event.fields.get("class") != "service":
            yield "refused-unlogged", f"{event.verb} {event.tag} of {event.client} was refused ({event.reason}) without an entry"


def _retries(replay):
    for serial, body in replay.bodies.items():
        if body["kind"] == "refusal" and "retryOf" in body:
            first = replay.bodies.get(body["retryOf"])
            if first is None or first["serial"] >= serial or "request" not in first or first.get("client") != body.get("client"):
                yield "retry-of", f"entry {serial} was refused for the request id of entry {body['retryOf']}, which has no id of that client"
