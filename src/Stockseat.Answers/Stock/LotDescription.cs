using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Stock;

/// <summary>A lot as a person describes it, in the configuration or over gRPC. Lengths in metres; null: not stated.</summary>
public sealed record LotDescription
{
    public double? Nominal { get; init; }

    public string? Tolerance { get; init; }

    public double? Plus { get; init; }

    public double? Minus { get; init; }

    public double? OutOfRound { get; init; }

    /// <summary>The nominal length, and how far above and below it a length may lie: all three, or none.</summary>
    public double? Length { get; init; }

    public double? LengthPlus { get; init; }

    public double? LengthMinus { get; init; }

    /// <summary>The terms, with the tolerance resolved; null when there are faults.</summary>
    /// <param name="faults">Everything that is wrong.</param>
    public LotTerms? Resolve(out IReadOnlyList<(LotPart Part, string Text)> faults)
    {
        var found = new List<(LotPart, string)>();
        faults = found;
        Whole(found);
        var limits = new ToleranceLimits(Plus ?? 0, Minus ?? 0);
        if (found.Count == 0 && Tolerance is not null && Tolerances.TryResolve(Tolerance, Nominal!.Value, out limits) is { } fault)
        {
            found.Add((LotPart.Tolerance, fault));
        }

        if (found.Count == 0 && Nominal is { } nominal && limits.MinusMetres >= nominal)
        {
            found.Add((Tolerance is null ? LotPart.Minus : LotPart.Tolerance, "makes the least diameter 0 or less; a minus below the nominal was expected"));
        }

        return found.Count > 0 ? null : new()
        {
            Nominal = Nominal,
            Tolerance = Tolerance,
            Plus = Nominal is null ? null : limits.PlusMetres,
            Minus = Nominal is null ? null : limits.MinusMetres,
            OutOfRound = OutOfRound ?? limits.OutOfRoundMetres,
            Length = Length,
            LengthPlus = LengthPlus,
            LengthMinus = LengthMinus,
        };
    }

    /// <summary>The parts that need each other, or exclude each other.</summary>
    private void Whole(List<(LotPart, string)> faults)
    {
        var each = Plus is not null || Minus is not null;
        if (Tolerance is not null && each)
        {
            faults.Add((LotPart.Tolerance, "can't be stated together with plus or minus; state one or the other"));
        }

        if (Plus is null != Minus is null)
        {
            faults.Add(Plus is null ? (LotPart.Minus, "needs a plus as well; state 0 when there is none")
                : (LotPart.Plus, "needs a minus as well; state 0 when there is none"));
        }

        if (Plus is 0 && Minus is 0)
        {
            faults.Add((LotPart.Plus, "and minus are both 0: no stock would belong to the lot"));
        }

        if (Nominal is null && (Tolerance is not null || each))
        {
            faults.Add((Tolerance is not null ? LotPart.Tolerance : Plus is not null ? LotPart.Plus : LotPart.Minus, "needs a nominal as well"));
        }

        var lengths = new[] { Length, LengthPlus, LengthMinus }.Count(l => l is not null);
        if (lengths is 1 or 2)
        {
            faults.Add((
                Length is null ? LotPart.Length : LengthPlus is null ? LotPart.LengthPlus : LotPart.LengthMinus,
                "is missing: a length needs its nominal, a plus and a minus; state 0 where there is none"));
        }

        if (Nominal is not null && Tolerance is null && !each)
        {
            faults.Add((LotPart.Nominal, "needs a tolerance as well, or plus and minus: a nominal alone limits nothing"));
        }
    }
}
