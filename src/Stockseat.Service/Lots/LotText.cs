using Stockseat.Answers.Entries;

namespace Stockseat.Service.Lots;

/// <summary>What is known about a lot, in words.</summary>
internal static class LotText
{
    public static string Of(LotTerms terms)
    {
        var limits = terms is { Nominal: { } nominal, Least: { } least, Greatest: { } greatest }
            ? $"nominal {M(nominal)} m, {terms.Tolerance ?? "plus and minus"}: {M(least)} to {M(greatest)} m"
            : "nominal and tolerance not stated";
        var length = terms is { Length: { } l, LengthPlus: { } plus, LengthMinus: { } minus } ? $", length {M(l - minus)} to {M(l + plus)} m" : "";
        return $"{limits}{length}, out-of-round {(terms.OutOfRound is { } o ? $"{M(o)} m" : "not stated")}";
    }

    private static string M(double metres) => FixedPoint.Text(metres);
}
