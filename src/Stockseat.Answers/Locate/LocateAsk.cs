using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Locate;

/// <summary>Where is the origin, or a nest, now?</summary>
public sealed record LocateAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "locate";

    /// <summary>The name under which a trial is recorded.</summary>
    public const string TrialName = "trial";

    /// <summary>The name of an ask for the next nest of a load.</summary>
    public const string NextName = "next";

    /// <summary>The name of an ask for all nests.</summary>
    public const string GridName = "grid";

    public override string Verb => IsTrial ? TrialName : IsNext ? NextName : IsGrid ? GridName : VerbName;

    /// <summary>
    /// Whether the next nest of the load is asked for: for a pick the next with raw stock, for a place the next empty one. The nest is chosen by the decision.
    /// </summary>
    public bool IsNext { get; init; }

    /// <summary>Whether all nests are asked for, at once.</summary>
    public bool IsGrid { get; init; }

    /// <summary>In a trial of that: the nest after which it is looked for, column and row; null: from the first one on.</summary>
    public int[]? After { get; init; }

    /// <summary>The stated diameter, in metres; null: the newest measurement is used.</summary>
    public double? DiameterMetres { get; init; }

    /// <summary>That diameter as its sender wrote it, with a unit, for a refusal's text; null: it came as a number of metres.</summary>
    public string? DiameterSent { get; init; }

    /// <summary>The stated length, in metres; null: that of the measurement is used, if one is needed.</summary>
    public double? LengthMetres { get; init; }

    public string? Lot { get; init; }

    /// <summary>What the configuration says of the lot; null when the lot is not in it.</summary>
    public LotTerms? LotTerms { get; init; }

    public Purpose Purpose { get; init; } = Purpose.Pick;

    /// <summary>The nominal diameter that the diameter must be near, in metres; together with <see cref="WithinMetres"/>.</summary>
    public double? NominalMetres { get; init; }

    /// <summary>How near it must be, in metres.</summary>
    public double? WithinMetres { get; init; }

    public int Column { get; init; }

    public int Row { get; init; }

    /// <summary>Whether the configuration keeps answers first until rechecks have proven the revision.</summary>
    public bool ProvingRequired { get; init; }

    /// <summary>Whether it is a trial: decided as ever, and recorded as one. It changes nothing, and can't be confirmed or done.</summary>
    public bool IsTrial { get; init; }

    /// <summary>The unit in which the lengths of the answer are served.</summary>
    public ServedUnit Unit { get; init; } = ServedUnit.Metre;

    /// <summary>The decimals with which its numbers are served, 0 to 12.</summary>
    public int Decimals { get; init; } = FixedPoint.UsualDecimals;
}
