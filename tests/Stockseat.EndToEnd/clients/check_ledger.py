# Checks a ledger's chain with what every Python has; the README shows these lines.
import hashlib, sqlite3, sys

previous, expected = bytes(32), 1
for serial, body, stored in sqlite3.connect(f"file:{sys.argv[1]}?mode=ro", uri=True).execute("SELECT serial, body, hash FROM entry ORDER BY serial"):
    previous = hashlib.sha256(b"\x01" + previous + body.encode()).digest()
    if serial != expected or stored != previous:
        sys.exit(f"entry {serial} does not follow from the one before")
    expected += 1
print(f"whole: {expected - 1} entries, head {previous.hex()}")
