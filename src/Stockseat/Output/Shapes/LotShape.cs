namespace Stockseat.Cli.Output.Shapes;

/// <summary>A lot; <paramref name="Replaces"/> is what was said of it before.</summary>
internal sealed record LotShape(
    string Lot, double? Nominal, double? Least, double? Greatest, string? Tolerance, double? OutOfRound, string Unit, long? Serial, string From,
    LotShape? Replaces = null);
