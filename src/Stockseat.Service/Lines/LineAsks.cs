using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Done;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Still;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;

namespace Stockseat.Service.Lines;

/// <summary>The ask of a line.</summary>
internal sealed class LineAsks(IAnswerer answerer, Client client, Caller caller)
{
    /// <summary>Reads it; null when the verb asks for nothing. What is wrong with its values is in them.</summary>
    public Ask? Read(LineRequest request, LineValues values)
    {
        var from = caller with { Tag = client.Form.Echoed(request.Tag) };
        switch (request.Verb)
        {
            case LocateAsk.VerbName:
                values.Known("fixture", "diameter", "lot", "nominal", "within", "purpose", "nest", "trial", "length");
                var (column, row) = values.Nest();
                return Locate(request, values, from) with { Column = column, Row = row };
            case LocateAsk.NextName:
                values.Known("fixture", "diameter", "lot", "nominal", "within", "purpose", "trial", "after", "length");
                return Next(request, values, from);
            case MeasureAsk.VerbName:
                return Measured(request, values, from);
            case EmptiedAsk.VerbName:
                values.Known("fixture");
                return new EmptiedAsk(from, values.Fixture());
            case LoadedAsk.VerbName:
                values.Known("fixture", "lot", "nests", "first");
                var (first, nests) = values.Nests();
                return new LoadedAsk(from, values.Fixture())
                {
                    Lot = values.Name("lot"), LotTerms = answerer.Lot(request["lot"]), First = first, Nests = nests,
                };
            case ConfirmAsk.VerbName:
                values.Known(["serial", .. AnswerBody.Numbers]);
                return new ConfirmAsk(from, values.Serial()) { ReadBack = values.ReadBack(), Fixtures = client.Fixtures, OwnAnswersOnly = true };
            case DoneAsk.VerbName:
                values.Known("serial");
                return new DoneAsk(from, values.Serial()) { Fixtures = client.Fixtures, OwnAnswersOnly = true };
            case DroppedAsk.VerbName:
                values.Known("serial");
                return new DroppedAsk(from, values.Serial()) { Fixtures = client.Fixtures, OwnAnswersOnly = true };
            case StillAsk.VerbName:
                values.Known("serial");
                return new StillAsk(from, values.Serial()) { Fixtures = client.Fixtures, OwnAnswersOnly = true };
            default:
                return null;
        }
    }

    private LocateAsk Locate(LineRequest request, LineValues values, Caller from)
    {
        var locate = new LocateAsk(from, values.Fixture())
        {
            DiameterMetres = values.Diameter(),
            DiameterSent = values.Sent("diameter") is [var sent] ? sent : null,
            Lot = values.Name("lot"),
            LotTerms = answerer.Lot(request["lot"]),
            LengthMetres = values.Length("length"),
            NominalMetres = values.Length("nominal"),
            WithinMetres = values.Length("within"),
            Purpose = values.Purpose(),
            IsTrial = values.IsYes("trial"),
            ProvingRequired = answerer.ProvingRequired,
            Unit = client.Form.Unit,
            Decimals = client.Form.Decimals,
        };
        values.Together("nominal", "within");
        return locate;
    }

    private LocateAsk Next(LineRequest request, LineValues values, Caller from)
    {
        var next = Locate(request, values, from) with { IsNext = true };
        if (request["after"] is null)
        {
            return next;
        }

        var (column, row) = values.Nest("after");
        if (!next.IsTrial)
        {
            values.Refuse(Answers.Reasons.Refusal.Of(
                Answers.Reasons.Reason.KeyUnknown, "next has after= only together with trial=yes: the order of a load is not skipped"));
        }

        return next with { After = [column, row] };
    }

    private MeasureAsk Measured(LineRequest request, LineValues values, Caller from)
    {
        values.Known("fixture", "diameter", "diameters", "gauge", "lot", "nest", "length");
        var fixture = values.Fixture();
        var readings = values.Readings();
        var gauge = values.Name("gauge");
        var (column, row) = values.Nest();
        return new(from, fixture)
        {
            ReadingsMetres = readings,
            ReadingsSent = values.Sent("diameter") ?? values.Sent("diameters"),
            Unit = values.UnitOfReadings(),
            Gauge = gauge,
            Terms = answerer.Terms(gauge),
            Lot = values.Name("lot"),
            LotTerms = answerer.Lot(request["lot"]),
            LengthMetres = values.Length("length"),
            Nest = request["nest"] is null ? null : [column, row],
        };
    }
}
