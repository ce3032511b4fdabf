"""Clients without any code of the service: lines over sockets, bare readings, and gRPC with generated stubs.

Each records everything in the history.
"""
import contextlib
import itertools
import socket
import sys
import threading
import time

from history import Event
from world import ADDRESSES, PATIENCE

SHIFTS = ("position_metres", "xyz", ""), ("shift_base_metres", "xyz", "b"), ("shift_origin_metres", "xyz", "o"), ("orientation", "wxyz", "q")


class Line:
    """One client's line connections, one after another; no two connections of a run have the same number."""

    _numbers = itertools.count(1)

    def __init__(self, world, history, name):
        self.world, self.history, self.name = world, history, name
        self._socket = self._replies = None
        self._number = 0

    def say(self, *events):
        """Sends all lines at once and reads the replies in order; a line without a reply is recorded as such."""
        try:
            self._connect()
            now = time.monotonic()
            for event in events:
                event.sent, event.connection = now, self._number
                self.history.add(event)
            self._socket.sendall("".join(f"{event.line}\n" for event in events).encode("ascii"))
            for event in events:
                event.line, said = "", self._replies.readline()
                if not said.endswith("\n"):
                    raise ConnectionError("an incomplete reply, or none")
                event.answered(said[:-1])
        except OSError:
            self.close()
            time.sleep(0.02)
        return events

    def ask(self, verb, fixture, rest, tag, **asked):
        """A request as it will be sent."""
        where = f" fixture={fixture}" if fixture else ""
        return Event(self.name, verb, 0.0, fixture, tag=tag, asked=asked, line=f"{verb}{where} {rest} tag={tag}")

    def _connect(self):
        if self._socket is None:
            self._socket = socket.create_connection(self.world.line, PATIENCE, (ADDRESSES[self.name], 0))
            self._replies = self._socket.makefile("r", encoding="ascii", newline="\n")
            self._number = next(Line._numbers)

    def close(self):
        if self._socket is not None:
            with contextlib.suppress(OSError):
                self._replies.close()
                self._socket.close()
            self._socket = None


class BareGauge:
    """The gauge that a reading port connects to; the newest connection counts."""

    def __init__(self, history, name):
        self.history, self.name, self.turn = history, name, threading.RLock()
        self._listener = socket.create_server(("127.0.0.1", 0))
        self._connection = None
        threading.Thread(target=self._accept, daemon=True).start()

    @property
    def port(self):
        return self._listener.getsockname()[1]

    def _accept(self):
        while True:
            try:
                connection, _ = self._listener.accept()
            except OSError:
                return
            self._drop()
            self._connection = connection

    def send(self, millimetres):
        """Sends it; returns whether the port is connected. Whether the port uses it is not reported to anybody."""
        connection = self._connection
        if connection is None:
            return False
        self.history.add(Event(self.name, "reading", time.monotonic(), asked={"metres": float(millimetres) / 1000}))
        try:
            connection.sendall(f"{millimetres}\r\n".encode("ascii"))
        except OSError:
            self._drop()
        return True

    def _drop(self):
        connection, self._connection = self._connection, None
        if connection is not None:
            connection.close()

    def close(self):
        with contextlib.suppress(OSError):
            self._listener.shutdown(socket.SHUT_RDWR)
        self._listener.close()
        self._drop()


class Office:
    """A gRPC client with stubs made from proto/."""

    def __init__(self, world, history, stubs):
        if stubs not in sys.path:
            sys.path.insert(0, stubs)
        import grpc
        import status_pb2
        from stockseat.v1 import fixture_pb2, gauge_pb2, ledger_pb2, lookup_pb2
        from stockseat.v1 import fixture_pb2_grpc, gauge_pb2_grpc, ledger_pb2_grpc, lookup_pb2_grpc

        self.world, self.history, self._grpc, self._status = world, history, grpc, status_pb2
        fixture, gauge = fixture_pb2_grpc.FixtureServiceStub, gauge_pb2_grpc.GaugeServiceStub
        self._calls = {
            "hold": (fixture, "Hold", fixture_pb2.HoldRequest),
            "release": (fixture, "Release", fixture_pb2.ReleaseRequest),
            "adopt": (fixture, "Adopt", fixture_pb2.AdoptRequest),
            "measured": (gauge, "Record", gauge_pb2.RecordRequest),
            "emptied": (gauge, "Emptied", gauge_pb2.EmptiedRequest),
            "lot": (gauge, "DescribeLot", gauge_pb2.DescribeLotRequest),
            "locate": (lookup_pb2_grpc.LookupServiceStub, "Locate", lookup_pb2.LocateRequest),
            "roll": (ledger_pb2_grpc.LedgerServiceStub, "Roll", ledger_pb2.RollRequest),
        }
        self._address = self._channel = None

    def call(self, verb, fixture="", request="", sent=(), **asked):
        """One call. `sent` goes with the request only; `asked` is compared with the entry too."""
        stub, method, message = self._calls[verb]
        fields = {**dict(sent), **asked} | ({"fixture": fixture} if fixture else {}) | ({"request_id": request} if request else {})
        event = Event("office", verb, 0.0, fixture, via="grpc", request=request, asked=asked)
        if self._address != self.world.grpc:
            self.close()
            self._address, self._channel = self.world.grpc, self._grpc.insecure_channel(self.world.grpc)
        event.sent = time.monotonic()
        self.history.add(event)
        try:
            response = getattr(stub(self._channel), method)(message(**fields), timeout=PATIENCE)
        except self._grpc.RpcError as failure:
            self._refused(event, failure)
            return event
        event.fields, event.line = self._fields(verb, response), str(response)
        event.done, event.verdict = time.monotonic(), "ok"
        return event

    def _refused(self, event, failure):
        details = dict(failure.trailing_metadata() or ()).get("grpc-status-details-bin")
        if details is None:
            time.sleep(0.02)
            return  # the connection broke: the outcome is unknown
        status = self._status.Status.FromString(details)
        info = self._status.ErrorInfo.FromString(status.details[0].value)
        event.fields, event.line = {"reason": info.reason.lower().replace("_", "-")}, status.message
        event.done, event.verdict = time.monotonic(), "refused"

    @staticmethod
    def _fields(verb, response):
        fields = {"serial": str(response.serial)}
        if verb != "locate":
            return fields
        fields |= {"revision": str(response.revision), "purpose": "place" if response.purpose == 2 else "pick", "nest": f"{response.column},{response.row}",
                   "diameter": repr(response.diameter_metres), "first": "yes" if response.first else "no"}
        if response.HasField("measurement"):
            fields["measurement"] = str(response.measurement)
        for name, parts, before in SHIFTS:
            fields |= {before + part: repr(getattr(getattr(response, name), part)) for part in parts}
        for name, after in (("uncertainty", ""), ("uncertainty_worst", "worst")):
            if response.HasField(name):
                fields |= {f"u{way}{after}": repr(getattr(getattr(response, name), f"{way}_metres")) for way in ("along", "across")}
        return fields

    def close(self):
        if self._channel is not None:
            self._channel.close()
            self._channel = None
