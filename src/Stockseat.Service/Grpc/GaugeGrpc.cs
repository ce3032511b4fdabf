using Grpc.Core;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.Service.Texts;
using Stockseat.V1;

namespace Stockseat.Service.Grpc;

internal sealed class GaugeGrpc(IAnswerer answerer, Door door, TimeProvider time) : GaugeService.GaugeServiceBase
{
    internal const int MostReadings = 100;

    public override async Task<RecordResponse> Record(RecordRequest request, ServerCallContext context)
    {
        context.RefuseBusy(answerer, c => Unread(c, request.Fixture));
        var (client, caller) = context.From();
        var body = await Push(() => Task.FromResult(new ReadReadings(request, null, null)), () => request.Fixture, client, caller);
        var response = new RecordResponse { Serial = body.Serial, DiameterMetres = body.Diameter, Readings = body.Readings.Count };
        if (body.Spread is { } spread)
        {
            response.SpreadMetres = spread;
        }

        return response;
    }

    public override async Task<RecordReadingsResponse> RecordReadings(IAsyncStreamReader<RecordReadingsRequest> requestStream, ServerCallContext context)
    {
        var (client, caller) = context.From(); // An unknown caller is refused before anything is read.
        var stream = new ReadingStream(answerer, time);
        var body = await Push(() => stream.Read(requestStream, context.Busy(), () => door.Ask(client), context), () => stream.Fixture, client, caller);
        var response = new RecordReadingsResponse { Serial = body.Serial, DiameterMetres = body.Diameter, Readings = body.Readings.Count };
        if (body.Spread is { } spread)
        {
            response.SpreadMetres = spread;
        }

        return response;
    }

    public override async Task<EmptiedResponse> Emptied(EmptiedRequest request, ServerCallContext context)
    {
        context.RefuseBusy(answerer, c => new EmptiedAsk(c, NameText.MayBeFixture(request.Fixture) ? request.Fixture : ""));
        var (client, caller) = context.From(request.Tag, request.RequestId);
        var ask = new EmptiedAsk(caller, Calls.Fixture(request.Fixture));
        return new() { Serial = ((await answerer.Ask(client.Permit(ask))).Entry<EmptiedBody>()).Serial };
    }

    public override async Task<DescribeLotResponse> DescribeLot(DescribeLotRequest request, ServerCallContext context)
    {
        var (client, caller) = context.From(request.Tag, request.RequestId);
        var body = (await answerer.Ask(client.Permit(LotCalls.Read(request, caller, answerer)))).Entry<LotDescribedBody>();
        var response = new DescribeLotResponse { Serial = body.Serial, Limits = LotCalls.Of(body.LotTerms) };
        if (body is { Replaces: { } replaced, Before: { } before })
        {
            (response.ReplacedSerial, response.Replaced) = (replaced, LotCalls.Of(before));
        }

        return response;
    }

    public override Task<ListLotsResponse> ListLots(ListLotsRequest request, ServerCallContext context)
    {
        _ = context.Visit();
        return Task.FromResult(LotCalls.List(answerer));
    }

    /// <summary>A push of which only the client and the fixture are known.</summary>
    private static MeasureAsk Unread(Caller caller, string fixture) =>
        new(caller, NameText.MayBeFixture(fixture) ? fixture : "") { ReadingsMetres = [], Terms = null };

    /// <summary>Pushes what is read; what can't be read leaves the measurement doubtful.</summary>
    private async Task<MeasurementBody> Push(Func<Task<ReadReadings>> read, Func<string> fixture, Client client, Caller caller)
    {
        MeasureAsk push;
        try
        {
            push = Read(await read(), caller);
        }
        catch (RefusedCall e)
        {
            throw answerer.Doubt(client.Permit(Unread(caller, fixture())), e.Refusal).ToRpc();
        }

        return (await answerer.Ask(client.Permit(push))).Entry<MeasurementBody>();
    }

    private MeasureAsk Read(ReadReadings read, Caller caller)
    {
        var request = read.Request;
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

        if (request.Unit.Length > 0 && !UnitText.Is(request.Unit))
        {
            throw Refusal.Of(Reason.UnitUnknown, "unit is not known").ToRpc();
        }

        var gauge = Calls.Name("gauge", request.Gauge);
        return new(caller, Calls.Fixture(request.Fixture))
        {
            ReadingsMetres = [.. readings.Select(r => Calls.Diameter("a reading", r))],
            Unit = request.Unit.Length == 0 ? null : request.Unit,
            Gauge = gauge,
            Terms = answerer.Terms(gauge),
            Lot = Calls.Name("lot", request.Lot),
            LotTerms = answerer.Lot(request.Lot),
            LengthMetres = request.HasLengthMetres ? Calls.Diameter("length_metres", request.LengthMetres) : null,
            Nest = (request.HasColumn, request.HasRow) switch
            {
                (false, false) => null,
                (true, true) => [request.Column, request.Row],
                _ => throw Refusal.Of(Reason.KeyMissing, "column and row belong together").ToRpc(),
            },
            Since = read.Since,
            FirstAt = read.First,
        };
    }
}
