using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Stock;

namespace Stockseat.Answers.Measured;

/// <summary>A gauge station pushes a diameter.</summary>
public sealed record MeasureAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "measured";

    public override string Verb => VerbName;

    /// <summary>One or more readings, in metres.</summary>
    public required IReadOnlyList<double> ReadingsMetres { get; init; }

    /// <summary>The readings as their sender wrote them, with their unit, for a refusal's text; null: they came as numbers of metres.</summary>
    public IReadOnlyList<string>? ReadingsSent { get; init; }

    public string? Unit { get; init; }

    public string? Gauge { get; init; }

    /// <summary>The gauge's terms; null when the gauge is not known.</summary>
    public required GaugeTerms? Terms { get; init; }

    public string? Lot { get; init; }

    /// <summary>What the configuration says of the lot; null when the lot is not in it.</summary>
    public LotTerms? LotTerms { get; init; }

    /// <summary>The length of the stock, in metres; null: it was not measured.</summary>
    public double? LengthMetres { get; init; }

    /// <summary>The nest whose blank was measured, column and row; null: the stock of the whole fixture.</summary>
    public int[]? Nest { get; init; }

    /// <summary>The ledger's last entry when the first reading came; null: the push came straight from its sender.</summary>
    public long? Since { get; init; }

    /// <summary>
    /// When the first reading came, by the counter of the service's clock; null: together with the push. The ledger's writer computes <see cref="Waited"/> from
    /// it.
    /// </summary>
    public long? FirstAt { get; init; }

    /// <summary>How many seconds passed since the first reading came; null: so few that they do not count.</summary>
    public double? Waited { get; init; }
}
