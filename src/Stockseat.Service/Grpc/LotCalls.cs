using System.Globalization;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Stock;
using Stockseat.Fixtures.Reading;
using Stockseat.Service.Answering;
using Stockseat.V1;

namespace Stockseat.Service.Grpc;

/// <summary>Lots in calls and in replies.</summary>
internal static class LotCalls
{
    private const int LongestTolerance = 40;

    /// <summary>The ask of a call, its tolerance resolved.</summary>
    public static DescribeLotAsk Read(DescribeLotRequest request, Caller caller, IAnswerer answerer)
    {
        var name = Calls.Name("lot", request.Lot) ?? throw Refusal.Of(Reason.KeyMissing, "lot is empty").ToRpc();
        var description = new LotDescription
        {
            Nominal = request.HasNominalMetres ? Within("nominal_metres", request.NominalMetres, Fixtures.Reading.Range.Size) : null,
            Tolerance = request.Tolerance.Length == 0 ? null
                : request.Tolerance.Length <= LongestTolerance ? request.Tolerance
                : throw Calls.Malformed($"tolerance has {request.Tolerance.Length} characters; at most {LongestTolerance} were expected"),
            Plus = request.HasPlusMetres ? Within("plus_metres", request.PlusMetres, Fixtures.Reading.Range.Gap) : null,
            Minus = request.HasMinusMetres ? Within("minus_metres", request.MinusMetres, Fixtures.Reading.Range.Gap) : null,
            OutOfRound = request.HasOutOfRoundMetres ? Within("out_of_round_metres", request.OutOfRoundMetres, Fixtures.Reading.Range.Size) : null,
            Length = request.HasLengthMetres ? Within("length_metres", request.LengthMetres, Fixtures.Reading.Range.Size) : null,
            LengthPlus = request.HasLengthPlusMetres ? Within("length_plus_metres", request.LengthPlusMetres, Fixtures.Reading.Range.Gap) : null,
            LengthMinus = request.HasLengthMinusMetres ? Within("length_minus_metres", request.LengthMinusMetres, Fixtures.Reading.Range.Gap) : null,
        };
        var terms = description.Resolve(out var faults)
            ?? throw Calls.Malformed(string.Join("; ", faults.Select(f => $"{Field(f.Part)}{Shown(f.Part)} {f.Text}")));
        string Shown(LotPart part) => part == LotPart.Tolerance ? $" '{Refusal.Shown(request.Tolerance)}'" : "";
        return new(caller, name) { Terms = terms, Configured = answerer.Lots.ContainsKey(name) };
    }

    /// <summary>All lots; where a description has the same name, the lot of the configuration counts.</summary>
    public static ListLotsResponse List(IAnswerer answerer)
    {
        var described = answerer.Situation.Lots.Where(l => !answerer.Lots.ContainsKey(l.Key))
            .Select(l => new Lot { Lot_ = l.Key, Limits = Of(l.Value.Terms), DescribedBy = l.Value.Serial });
        var all = answerer.Lots.Select(l => new Lot { Lot_ = l.Key, Limits = Of(l.Value) }).Concat(described);
        return new() { Lots = { all.OrderBy(l => l.Lot_, StringComparer.Ordinal) } };
    }

    /// <summary>What is known about a lot, for a reply.</summary>
    public static LotLimits Of(LotTerms terms)
    {
        var limits = new LotLimits { Tolerance = terms.Tolerance ?? "" };
        if (terms is { Nominal: { } nominal, Least: { } least, Greatest: { } greatest })
        {
            (limits.NominalMetres, limits.LeastMetres, limits.GreatestMetres) = (nominal, least, greatest);
        }

        if (terms.OutOfRound is { } outOfRound)
        {
            limits.OutOfRoundMetres = outOfRound;
        }

        if (terms is { Length: { } length, LengthPlus: { } plus, LengthMinus: { } minus })
        {
            (limits.LengthMetres, limits.LeastLengthMetres, limits.GreatestLengthMetres) = (length, length - minus, length + plus);
        }

        return limits;
    }

    private static double Within(string field, double metres, Fixtures.Reading.Range range) => range.Holds(metres)
        ? metres
        : throw Calls.Malformed(string.Create(CultureInfo.InvariantCulture, $"{field} is {metres:R}; {range.Text("m")} was expected"));

    private static string Field(LotPart part) => part switch
    {
        LotPart.Nominal => "nominal_metres",
        LotPart.Tolerance => "tolerance",
        LotPart.Plus => "plus_metres",
        LotPart.Minus => "minus_metres",
        LotPart.OutOfRound => "out_of_round_metres",
        LotPart.Length => "length_metres",
        LotPart.LengthPlus => "length_plus_metres",
        LotPart.LengthMinus => "length_minus_metres",
        _ => throw new ArgumentOutOfRangeException(nameof(part), part, "no such part"),
    };
}
