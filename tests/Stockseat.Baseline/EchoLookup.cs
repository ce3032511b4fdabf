using Grpc.Core;
using Stockseat.V1;

namespace Stockseat.Baseline;

/// <summary>Replies with a message the size of an answer.</summary>
internal sealed class EchoLookup : LookupService.LookupServiceBase
{
    public override Task<LocateResponse> Locate(LocateRequest request, ServerCallContext context) => Task.FromResult(new LocateResponse
    {
        Serial = 1_234_567,
        Fixture = request.Fixture,
        Revision = 3,
        Digest = "9d3f0c2ab1c4d5e6f70819203142536475869708a9bacbdcedfe0f1021324354",
        Purpose = Purpose.Pick,
        DiameterMetres = request.DiameterMetres,
        First = true,
        PositionMetres = new() { X = 0.372104, Y = -0.206553, Z = 0.118002 },
        Orientation = new() { X = 1 },
        ShiftBaseMetres = new() { X = 0.000004, Y = 0.005123, Z = 0.000002 },
        ShiftOriginMetres = new() { X = 0.000004, Y = -0.005123, Z = -0.000002 },
        Tag = request.Tag,
    });
}
