"""What the clients know: each request, when it was sent, what came back and when.

The checker relies on this and on the ledger, and on nothing else.
"""
import dataclasses
import re
import threading
import time

PAIR = re.compile(r'([a-z]+)=("[^"]*"|\S+)')


@dataclasses.dataclass
class Event:
    """One request and what the client knows about it. Times are from the counter, which no clock step moves."""

    client: str
    verb: str  # a verb of the protocol; or reading, started
    sent: float
    fixture: str = ""
    via: str = "line"
    tag: str = ""
    request: str = ""  # the request id
    asked: dict = dataclasses.field(default_factory=dict)
    done: float = 0.0
    verdict: str = ""  # ok or refused; empty: no reply came, so the client knows nothing
    fields: dict = dataclasses.field(default_factory=dict)
    line: str = ""  # the reply as it came; for gRPC, the message as text
    connection: int = 0

    @property
    def ok(self):
        return self.verdict == "ok"

    @property
    def serial(self):
        return int(self.fields["serial"])

    @property
    def reason(self):
        return self.fields.get("reason", "")

    def answered(self, line):
        """Records a reply of the line protocol."""
        self.done, self.line = time.monotonic(), line
        self.verdict = line.split(" ", 1)[0]
        self.fields = {name: value.strip('"') for name, value in PAIR.findall(line)}
        return self


class History:
    """All events, from all threads."""

    def __init__(self):
        self._lock = threading.Lock()
        self._events = []

    def add(self, event):
        with self._lock:
            self._events.append(event)
        return event

    def all(self):
        with self._lock:
            return sorted(self._events, key=lambda e: e.sent)
