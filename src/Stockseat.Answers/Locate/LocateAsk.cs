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

    public override string Verb => IsTrial ? TrialName : VerbName;

    /// <summary>The stated diameter, in metres; null: the newest measurement is used.</summary>
    public double? DiameterMetres { get; init; }

    /// <summary>That diameter as its sender wrote it, with a unit, for a refusal's text; null: it came as a number of metres.</summary>
    public string? DiameterSent { get; init; }

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
