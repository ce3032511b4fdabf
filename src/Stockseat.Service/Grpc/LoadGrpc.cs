using Grpc.Core;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Answering;
using Stockseat.V1;

namespace Stockseat.Service.Grpc;

/// <summary>Loads over gRPC.</summary>
internal sealed class LoadGrpc(IAnswerer answerer) : LoadService.LoadServiceBase
{
    private const int NestsOfMessage = 500;

    public override async Task<ReportLoadedResponse> ReportLoaded(ReportLoadedRequest request, ServerCallContext context)
    {
        var (client, caller) = context.From(request.Tag, request.RequestId);
        var ask = new LoadedAsk(caller, Calls.Fixture(request.Fixture))
        {
            Lot = Calls.Name("lot", request.Lot),
            LotTerms = answerer.Lot(request.Lot),
            First = request.HasFirst ? request.First : null,
            Nests = request.Nests.Count == 0 ? null : [.. request.Nests.Select(n => (int[])[n.Column, n.Row])],
        };
        var body = (await answerer.Ask(client.Permit(ask))).Entry<LoadedBody>();
        var response = new ReportLoadedResponse { Serial = body.Serial, Count = body.Count };
        if (body.Replaces is { } replaces)
        {
            (response.Replaces, response.ReplacedLeft) = (replaces, body.ReplacedLeft ?? 0);
        }

        if (body.Unfinished is { } unfinished)
        {
            response.Unfinished = unfinished;
        }

        return response;
    }

    public override async Task<NextResponse> Next(NextRequest request, ServerCallContext context)
    {
        var (client, caller) = context.From(request.Tag, request.RequestId);
        var ask = new LocateAsk(caller, Calls.Fixture(request.Fixture))
        {
            IsNext = true,
            DiameterMetres = request.HasDiameterMetres ? Calls.Diameter("diameter_metres", request.DiameterMetres) : null,
            LengthMetres = request.HasLengthMetres ? Calls.Diameter("length_metres", request.LengthMetres) : null,
            Lot = Calls.Name("lot", request.Lot),
            LotTerms = answerer.Lot(request.Lot),
            NominalMetres = request.HasNominalMetres ? Calls.Diameter("nominal_metres", request.NominalMetres) : null,
            WithinMetres = request.HasWithinMetres ? Calls.Diameter("within_metres", request.WithinMetres) : null,
            Purpose = LookupGrpc.Read(request.Purpose),
            IsTrial = request.Trial,
            After = request.After is { } after ? [after.Column, after.Row] : null,
            ProvingRequired = answerer.ProvingRequired,
        };
        if (ask.NominalMetres is null != ask.WithinMetres is null)
        {
            throw Refusal.Of(Reason.KeyMissing, "nominal_metres and within_metres belong together").ToRpc();
        }

        if (ask is { After: not null, IsTrial: false })
        {
            throw Refusal.Of(Reason.KeyUnknown, "after belongs to a trial: the order of a load is not skipped").ToRpc();
        }

        var answer = (await answerer.Ask(client.Permit(ask))).Entry<ServedBody>();
        return new() { Answer = LookupGrpc.Response(answer), Load = answer.Load ?? 0, Left = answer.Left ?? 0 };
    }

    public override async Task<ReportDroppedResponse> ReportDropped(ReportDroppedRequest request, ServerCallContext context)
    {
        var (client, caller) = context.From(request.Tag, request.RequestId);
        var ask = new DroppedAsk(caller, request.Serial)
        {
            By = request.By.Length == 0 ? null : Calls.Said("by", request.By),
            Fixtures = client.Fixtures,
            OwnAnswersOnly = true,
        };
        var body = (await answerer.Ask(client.Permit(ask))).Entry<DroppedBody>();
        return new() { Serial = body.Serial, Dropped = body.Answer };
    }

    public override async Task LocateGrid(LocateGridRequest request, IServerStreamWriter<LocateGridResponse> responseStream, ServerCallContext context)
    {
        var (client, caller) = context.From(request.Tag, request.RequestId);
        var ask = new LocateAsk(caller, Calls.Fixture(request.Fixture))
        {
            IsGrid = true,
            DiameterMetres = request.HasDiameterMetres ? Calls.Diameter("diameter_metres", request.DiameterMetres) : null,
            LengthMetres = request.HasLengthMetres ? Calls.Diameter("length_metres", request.LengthMetres) : null,
            Lot = Calls.Name("lot", request.Lot),
            LotTerms = answerer.Lot(request.Lot),
            Purpose = LookupGrpc.Read(request.Purpose),
            ProvingRequired = answerer.ProvingRequired,
        };
        var grid = (await answerer.Ask(client.Permit(ask))).Entry<GridBody>();
        if (answerer.Situation.Find(ask.Fixture)?.InForce is not { } revision || revision.Digest != grid.Digest)
        {
            throw Refusal.Of(Reason.AnswerSuperseded, $"another revision of {ask.Fixture} came into force meanwhile").ToRpc();
        }

        var first = new LocateGridResponse { Answer = LookupGrpc.Response(grid), Count = grid.Count, PositionsDigest = grid.PositionsDigest };
        foreach (var nests in GridPositions.Of(revision, grid).Chunk(NestsOfMessage))
        {
            var message = first;
            message.Nests.AddRange(nests.Select(n => new NestPosition { Column = n.Column, Row = n.Row, PositionMetres = LookupGrpc.Vector(n.Position) }));
            await responseStream.WriteAsync(message, context.CancellationToken);
            first = new();
        }
    }
}
