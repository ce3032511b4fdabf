using Grpc.Core;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Done;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.State;
using Stockseat.Answers.Still;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.V1;
using Purpose = Stockseat.V1.Purpose;

namespace Stockseat.Service.Grpc;

internal sealed class LookupGrpc(IAnswerer answerer) : LookupService.LookupServiceBase
{
    public override async Task<LocateResponse> Locate(LocateRequest request, ServerCallContext context)
    {
        var (client, caller) = context.From(request.Tag, request.RequestId);
        var ask = new LocateAsk(caller, Calls.Fixture(request.Fixture))
        {
            DiameterMetres = request.HasDiameterMetres ? Calls.Diameter("diameter_metres", request.DiameterMetres) : null,
            LengthMetres = request.HasLengthMetres ? Calls.Diameter("length_metres", request.LengthMetres) : null,
            Lot = Calls.Name("lot", request.Lot),
            LotTerms = answerer.Lot(request.Lot),
            NominalMetres = request.HasNominalMetres ? Calls.Diameter("nominal_metres", request.NominalMetres) : null,
            WithinMetres = request.HasWithinMetres ? Calls.Diameter("within_metres", request.WithinMetres) : null,
            Purpose = Read(request.Purpose),
            Column = request.Column,
            Row = request.Row,
            IsTrial = request.Trial,
            ProvingRequired = answerer.ProvingRequired,
        };
        if (ask.NominalMetres is null != ask.WithinMetres is null)
        {
            throw Answers.Reasons.Refusal.Of(Answers.Reasons.Reason.KeyMissing, "nominal_metres and within_metres belong together").ToRpc();
        }

        var answer = (await answerer.Ask(client.Permit(ask))).Entry<ServedBody>();
        var response = Response(answer);
        if (request.Budget && answerer.Situation.Find(ask.Fixture)?.InForce is { } revision && revision.Digest == answer.Digest)
        {
            response.Budgets.AddRange(AnswerBudgets.Of(revision, answer).Select(Budgets.Of));
        }

        return response;
    }

    public override async Task<ConfirmResponse> Confirm(ConfirmRequest request, ServerCallContext context)
    {
        var (client, caller) = context.From(request.Tag, request.RequestId);
        var ask = new ConfirmAsk(caller, request.Serial)
        {
            Fixtures = client.Fixtures,
            OwnAnswersOnly = true,
            ReadBack = request.ReadBack.Count <= 20
                ? new Dictionary<string, string>(request.ReadBack)
                : throw Calls.Malformed("read_back has more than 20 numbers"),
        };
        if (ask.ReadBack.Any(p => p.Key.Length > 20 || p.Value.Length > 40))
        {
            throw Calls.Malformed("read_back has a name above 20 or a number above 40 characters");
        }

        var body = (await answerer.Ask(client.Permit(ask))).Entry<ConfirmationBody>();
        return new() { Serial = body.Serial, Confirms = body.Confirms, HasNumbers = body.Numbers != ConfirmationBody.None };
    }

    public override async Task<ReportDoneResponse> ReportDone(ReportDoneRequest request, ServerCallContext context)
    {
        var (client, caller) = context.From(request.Tag, request.RequestId);
        var ask = new DoneAsk(caller, request.Serial)
        {
            By = request.By.Length == 0 ? null : Calls.Said("by", request.By),
            Fixtures = client.Fixtures,
            OwnAnswersOnly = true,
        };
        var body = (await answerer.Ask(client.Permit(ask))).Entry<DoneBody>();
        return new() { Serial = body.Serial, Done = body.Answer };
    }

    public override async Task<StillResponse> Still(StillRequest request, ServerCallContext context)
    {
        var (client, caller) = context.From(request.Tag);
        var ask = new StillAsk(caller, request.Serial) { Fixtures = client.Fixtures, OwnAnswersOnly = true };
        return new() { Serial = (await answerer.Ask(client.Permit(ask))).Entry<AnswerBody>().Serial };
    }

    /// <summary>The purpose of a call.</summary>
    internal static Answers.Entries.Purpose Read(Purpose purpose) => purpose switch
    {
        Purpose.Unspecified or Purpose.Pick => Answers.Entries.Purpose.Pick,
        Purpose.Place => Answers.Entries.Purpose.Place,
        var other => throw Answers.Reasons.Refusal.Of(Answers.Reasons.Reason.PurposeUnknown, $"purpose is {(int)other}").ToRpc(),
    };

    /// <summary>An answer, as a message.</summary>
    internal static LocateResponse Response(ServedBody a)
    {
        var response = new LocateResponse
        {
            Serial = a.Serial,
            Fixture = a.Fixture,
            Revision = a.Revision!.Value,
            Digest = a.Digest,
            Purpose = a.Purpose == "place" ? Purpose.Place : Purpose.Pick,
            Column = a.Nest[0],
            Row = a.Nest[1],
            DiameterMetres = a.Diameter,
            First = a.First,
            PositionMetres = Vector(a.Position),
            Orientation = new() { W = a.Orientation[0], X = a.Orientation[1], Y = a.Orientation[2], Z = a.Orientation[3] },
            ShiftBaseMetres = Vector(a.ShiftBase),
            ShiftOriginMetres = Vector(a.ShiftOrigin),
            Tag = a.Tag ?? "",
            Trial = a is TrialBody,
        };
        if (a.Measurement is { } measurement)
        {
            response.Measurement = measurement;
            response.AgeSeconds = a.Age!.Value;
        }

        if (a.Length is { } length)
        {
            response.LengthMetres = length;
        }

        if (a.Uncertainty is { } u)
        {
            response.Uncertainty = new() { AlongMetres = u.Along, AcrossMetres = u.Across };
            if (u.Normal is { } normal)
            {
                response.Uncertainty.NormalMetres = normal;
            }

            response.UncertaintyWorst = u.AlongWorst is { } along ? new() { AlongMetres = along, AcrossMetres = u.AcrossWorst!.Value } : null;
        }

        return response;
    }

    internal static Vector Vector(double[] v) => new() { X = v[0], Y = v[1], Z = v[2] };
}
