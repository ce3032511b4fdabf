using Grpc.Core;
using Stockseat.Answers.Deciding;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Records;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.V1;

namespace Stockseat.Service.Grpc;

internal sealed class GaugeGrpc(IAnswerer answerer, ClientTable clients, Door door, TimeProvider time) : GaugeService.GaugeServiceBase
{
    internal const int MostReadings = 100;

    public override async Task<RecordResponse> Record(RecordRequest request, ServerCallContext context)
    {
        var (client, caller) = clients.From(context);
        var body = await Push(request, client, caller);
        var response = new RecordResponse { Serial = body.Serial, DiameterMetres = body.Diameter, Readings = body.Readings.Count };
        if (body.Spread is { } spread)
        {
            response.SpreadMetres = spread;
        }

        return response;
    }

    public override async Task<RecordReadingsResponse> RecordReadings(IAsyncStreamReader<RecordReadingsRequest> requestStream, ServerCallContext context)
    {
        var (client, caller) = clients.From(context); // A stranger is told before anything of it is read.
        var body = await Push(await ReadingStream.Read(requestStream, () => door.Ask(client), time, context), client, caller);
        var response = new RecordReadingsResponse { Serial = body.Serial, DiameterMetres = body.Diameter, Readings = body.Readings.Count };
        if (body.Spread is { } spread)
        {
            response.SpreadMetres = spread;
        }

        return response;
    }

    public override async Task<EmptiedResponse> Emptied(EmptiedRequest request, ServerCallContext context)
    {
        var (client, caller) = clients.From(context, request.Tag, request.RequestId);
        var ask = new EmptiedAsk(caller, Calls.Fixture(request.Fixture));
        return new() { Serial = (await answerer.Ask(client.Permit(ask)).Get<EmptiedBody>()).Serial };
    }

    public override async Task<DescribeLotResponse> DescribeLot(DescribeLotRequest request, ServerCallContext context)
    {
        var (client, caller) = clients.From(context, request.Tag, request.RequestId);
        var body = await answerer.Ask(client.Permit(LotCalls.Read(request, caller, answerer))).Get<LotDescribedBody>();
        return new() { Serial = body.Serial, Limits = LotCalls.Of(body.LotTerms) };
    }

    public override Task<ListLotsResponse> ListLots(ListLotsRequest request, ServerCallContext context)
    {
        _ = clients.From(context);
        return Task.FromResult(LotCalls.List(answerer));
    }

    private async Task<MeasurementBody> Push(RecordRequest request, Client client, Caller caller)
    {
        caller = caller.Saying(request.Tag, request.RequestId);
        var readings = request.ReadingsMetres;
        if (readings.Count == 0)
        {
            throw Refusal.Of(Reason.DiameterMissing, "readings_metres is empty").ToRpc();
        }

        if (readings.Count > MostReadings)
        {
            throw Calls.Malformed($"readings_metres has {readings.Count} readings; at most {MostReadings} were expected");
        }

        if (request.Unit is not ("" or "mm" or "m" or "um" or "in"))
        {
            throw Refusal.Of(Reason.UnitUnknown, "unit is not known").ToRpc();
        }

        var gauge = Calls.Word("gauge", request.Gauge);
        return await answerer.Ask(client.Permit(new MeasureAsk(caller, Calls.Fixture(request.Fixture))
        {
            ReadingsMetres = [.. readings.Select(r => Calls.Diameter("a reading", r))],
            Unit = request.Unit.Length == 0 ? null : request.Unit,
            Gauge = gauge,
            Terms = answerer.Terms(gauge),
            Lot = Calls.Word("lot", request.Lot),
            LotTerms = answerer.Lot(request.Lot),
        })).Get<MeasurementBody>();
    }
}
