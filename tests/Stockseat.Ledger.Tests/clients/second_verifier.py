"""A second verifier of a ledger, written from README.md alone: sqlite3, hashlib and the openssl command.

second_verifier.py LEDGER [--key PUB.pem]... [--against ANCHOR]... [--require-seal]
Prints one line a fault, "serial kind"; exit code 1 when there is a fault.
"""
import argparse, base64, hashlib, json, os, sqlite3, subprocess, sys, tempfile

COLUMNS = ("serial", "at", "kind", "fixture", "revision", "client", "tag")


def openssl_verifies(public_der, message, signature):
    with tempfile.TemporaryDirectory() as folder:
        paths = [os.path.join(folder, n) for n in ("key.der", "message", "signature", "key.pem")]
        for path, data in zip(paths, (public_der, message, signature)):
            with open(path, "wb") as f:
                f.write(data)
        if subprocess.run(["openssl", "pkey", "-pubin", "-inform", "DER", "-in", paths[0], "-out", paths[3]], capture_output=True).returncode:
            return False
        return subprocess.run(["openssl", "dgst", "-sha256", "-verify", paths[3], "-signature", paths[2], paths[1]], capture_output=True).returncode == 0


def fingerprint(der):
    return hashlib.sha256(der).hexdigest()


def message(ledger, serial, head, at):
    return f"stockseat seal 1\nledger {ledger}\nserial {serial}\nhash {head}\nat {at}\n".encode("ascii")


def anchor(path):
    lines = [line.split(" ", 1) for line in open(path, encoding="ascii").read().split("\n") if line]
    if lines[0] != ["stockseat", "seal 1"]:
        sys.exit(2)
    return dict(lines[1:])


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("ledger")
    parser.add_argument("--key", action="append", default=[])
    parser.add_argument("--against", action="append", default=[])
    parser.add_argument("--require-seal", action="store_true")
    options = parser.parse_args()
    given = {}
    for path in options.key:
        der = subprocess.run(["openssl", "pkey", "-pubin", "-in", path, "-outform", "DER"], capture_output=True, check=True).stdout
        given[fingerprint(der)] = der

    faults, brought, hashes, ledger_id, good = [], {}, {}, None, 0
    before, last = bytes(32), 0
    rows = sqlite3.connect(options.ledger).execute(
        "SELECT serial, at, kind, fixture, revision, client, tag, CAST(body AS BLOB), hash FROM entry ORDER BY serial")
    for row in rows:
        serial, body, stored = row[0], row[7], row[8]
        if serial != last + 1:
            faults.append((serial, "gap"))
        elif hashlib.sha256(b"\x01" + before + body).digest() != stored:
            faults.append((serial, "edited"))
        else:
            parsed = json.loads(body)
            if any(parsed.get(name) != value for name, value in zip(COLUMNS, row)):
                faults.append((serial, "columns"))
            if serial == 1:
                ledger_id = parsed["ledger"]
            if parsed["kind"] == "seal":
                kind = judge(parsed, before, last, ledger_id, given, brought)
                good += kind is None
                faults += [(serial, kind)] if kind else []
        before, last = stored, serial
        hashes[serial] = stored.hex()

    faults += requests(options.ledger, last, {serial for serial, _ in faults})
    if options.require_seal and not good:
        faults.append((last, "unsealed"))
    for path in options.against:
        kept = anchor(path)
        number = int(kept["serial"])
        if kept["ledger"] != ledger_id:
            faults.append((last, "other-ledger"))
        elif number not in hashes:
            faults.append((last, "cut"))
        elif hashes[number] != kept["hash"]:
            faults.append((number, "fork"))
    for serial, kind in faults:
        print(serial, kind)
    sys.exit(1 if faults else 0)


def requests(ledger, last, told):
    """The table of request ids of version 2 agrees with the bodies, and none of the newest 100,000 ids is missing."""
    connection = sqlite3.connect(ledger)
    if connection.execute("PRAGMA user_version").fetchone()[0] < 2:
        return []
    table = {serial: (client, request) for serial, client, request in connection.execute("SELECT serial, client, request FROM request")}
    faults = []
    for serial, body in connection.execute("SELECT serial, CAST(body AS BLOB) FROM entry ORDER BY serial"):
        if serial in told:
            continue
        parsed = json.loads(body)
        said = (parsed.get("client"), parsed["request"]) if "request" in parsed else None
        if serial in table and table[serial] != said or serial not in table and said and serial > last - 100_000:
            faults.append((serial, "index"))
    return faults


def judge(seal, before, last, ledger_id, given, brought):
    if "publicKey" in seal:
        der = base64.b64decode(seal["publicKey"])
        if fingerprint(der) != seal["key"]:
            return "bad-seal"
        brought[seal["key"]] = der
    key = (given or brought).get(seal["key"])
    if key is None:
        return "unknown-key"
    if seal["ledger"] != ledger_id or seal["sealed"] != last or seal["head"] != before.hex():
        return "bad-seal"
    signed = message(seal["ledger"], seal["sealed"], seal["head"], seal["at"])
    return None if openssl_verifies(key, signed, base64.b64decode(seal["signature"])) else "bad-seal"


main()
