"""Reads ledgers as README.md documents them, and checks their chain."""
import dataclasses
import glob
import hashlib
import json
import os
import sqlite3


@dataclasses.dataclass
class Row:
    serial: int
    raw: bytes
    hash: bytes

    def __post_init__(self):
        self.body = json.loads(self.raw)


@dataclasses.dataclass
class Ledger:
    """One file."""

    name: str
    rows: list


def read(data):
    """All ledgers of a data folder in order; their service has stopped."""
    files = glob.glob(os.path.join(data, "closed", "*.db")) + [os.path.join(data, "ledger.db")]
    ledgers = []
    for file in files:
        connection = sqlite3.connect(f"file:{file}?mode=ro", uri=True)
        rows = [Row(*row) for row in connection.execute("SELECT serial, CAST(body AS BLOB), hash FROM entry ORDER BY serial")]
        connection.close()
        ledgers.append(Ledger(os.path.basename(file), rows))
    return sorted(ledgers, key=lambda ledger: ledger.rows[0].serial if ledger.rows else 0)


def digest(before, raw):
    return hashlib.sha256(b"\x01" + before + raw).digest()


def chain_faults(ledgers):
    """Yields (rule, text): wrong hashes, gaps in the serials, and ends and beginnings that don't name each other."""
    ended, expected = None, 1
    for ledger in ledgers:
        before = bytes(32)
        for row in ledger.rows:
            if row.serial != expected:
                yield "chain", f"{ledger.name}: entry {row.serial} is found where {expected} was expected"
            if row.body.get("serial") != row.serial:
                yield "chain", f"{ledger.name}: the body of entry {row.serial} says {row.body.get('serial')}"
            if digest(before, row.raw) != row.hash:
                yield "chain", f"{ledger.name}: entry {row.serial} does not follow from the entry before it"
            before, expected = row.hash, row.serial + 1
        if not ledger.rows:
            yield "chain", f"{ledger.name} is empty"
            continue
        yield from _link_faults(ledger, ended)
        ended = ledger
    if ended is not None and _is_end(ended.rows[-1].body):
        yield "link", f"{ended.name} says that another ledger follows, but there is none"


def _is_end(body):
    return body["kind"] == "rolled-over" and "follows" not in body


def _link_faults(ledger, ended):
    first = ledger.rows[0].body
    if ended is None:
        if first["kind"] not in ("service-started", "unclean-stop", "clock-step"):
            yield "link", f"{ledger.name} begins with {first['kind']}, but there is no ledger before it"
        return
    last, follows = ended.rows[-1], first.get("follows", {})
    if not _is_end(last.body) or last.body.get("next") != first.get("ledger"):
        yield "link", f"the end of {ended.name} does not name {ledger.name}"
    if follows.get("last") != last.serial or follows.get("hash") != last.hash.hex():
        yield "link", f"{ledger.name} does not name the end of {ended.name}"


def carried_faults(ledgers):
    """What a new ledger carries has to agree with the old ledgers."""
    bodies = {row.serial: row.body for ledger in ledgers for row in ledger.rows}
    for ledger in ledgers:
        for body in ledger.rows[0].body.get("carried", []) if ledger.rows else []:
            if bodies.get(body["serial"]) != body:
                yield "carried", f"{ledger.name} carries entry {body['serial']} with another content than was written"
