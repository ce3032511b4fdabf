"""Does the job over gRPC with stubs generated from proto/: python3 grpc_client.py STUBS HOST:PORT [AUTHORITY CERTIFICATE KEY].

Prints one JSON object.
"""
import json
import sys

sys.path.insert(0, sys.argv[1])

import grpc  # noqa: E402
import status_pb2  # noqa: E402
from stockseat.v1 import gauge_pb2, gauge_pb2_grpc, ledger_pb2_grpc, lookup_pb2, lookup_pb2_grpc, verify_pb2  # noqa: E402

TIMEOUT_S = 30


def refusal(call, request):
    """The status and ErrorInfo that a refused call carries."""
    try:
        call(request, timeout=TIMEOUT_S)
    except grpc.RpcError as failure:
        trailers = dict(failure.trailing_metadata())
        status = status_pb2.Status.FromString(trailers["grpc-status-details-bin"])
        detail = status.details[0]
        info = status_pb2.ErrorInfo.FromString(detail.value)
        return {
            "status": failure.code().name, "type": detail.type_url, "text": status.message,
            "reason": info.reason, "domain": info.domain, "metadata": dict(info.metadata),
        }
    raise SystemExit("the call was answered, but a refusal was expected")


def connect(address, *files):
    """A channel; with files in PEM over TLS, with a certificate of its own."""
    if not files:
        return grpc.insecure_channel(address)
    authority, certificate, key = [open(name, "rb").read() for name in files]
    return grpc.secure_channel(address, grpc.ssl_channel_credentials(authority, key, certificate))


with connect(*sys.argv[2:]) as channel:
    lookup = lookup_pb2_grpc.LookupServiceStub(channel)
    gauge = gauge_pb2_grpc.GaugeServiceStub(channel)
    ledger = ledger_pb2_grpc.LedgerServiceStub(channel)
    health = channel.unary_unary(
        "/grpc.health.v1.Health/Check",
        request_serializer=status_pb2.HealthCheckRequest.SerializeToString,
        response_deserializer=status_pb2.HealthCheckResponse.FromString,
    )
    record = gauge_pb2.RecordRequest(fixture="pinbed-1", readings_metres=[0.0924], lot="A1077", unit="mm", request_id="record-1")
    recorded = gauge.Record(record, timeout=TIMEOUT_S)
    again = gauge.Record(record, timeout=TIMEOUT_S)
    answer = lookup.Locate(lookup_pb2.LocateRequest(fixture="pinbed-1", lot="A1077", tag="p1"), timeout=TIMEOUT_S)
    read_back = {"bx": "-0.004731", "by": "0.006308", "bz": "0.002300"}
    confirmed = lookup.Confirm(lookup_pb2.ConfirmRequest(serial=answer.serial, read_back=read_back), timeout=TIMEOUT_S)
    print(json.dumps({
        "recorded": recorded.serial, "again": again.serial,
        "serial": answer.serial, "measurement": answer.measurement, "revision": answer.revision, "digest": answer.digest,
        "y": answer.position_metres.y, "by": answer.shift_base_metres.y, "tag": answer.tag,
        "confirms": confirmed.confirms,
        "whole": ledger.Verify(verify_pb2.VerifyRequest(), timeout=TIMEOUT_S).whole,
        "health": health(status_pb2.HealthCheckRequest(service="stockseat.v1.LookupService"), timeout=TIMEOUT_S).status,
        "refusal": refusal(lookup.Locate, lookup_pb2.LocateRequest(fixture="pinbed-1", diameter_metres=0.04)),
    }))
