using Stockseat.Answers.Measuring;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Records;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Deciding;

/// <summary>What the stock is wanted for.</summary>
public enum Purpose
{
    Pick = 1,
    Place = 2,
}

/// <summary>How purposes are called.</summary>
public static class PurposeNames
{
    /// <summary>Its name in lines and in the ledger.</summary>
    public static string Name(this Purpose purpose) => purpose == Purpose.Place ? "place" : "pick";
}

/// <summary>A well-formed ask or push. What it means is decided in the ledger's order.</summary>
/// <param name="Caller">Who asks.</param>
/// <param name="Fixture">Which fixture.</param>
public abstract record Ask(Caller Caller, string Fixture)
{
    /// <summary>The verb, as refusals record it.</summary>
    public abstract string Verb { get; }

    /// <summary>Why this client may not ask it, from the configuration; null when it may.</summary>
    public Refusal? Denied { get; init; }
}

/// <summary>Where is the origin, or a nest, now?</summary>
public sealed record LocateAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    public override string Verb => "locate";

    /// <summary>The diameter stated, in metres; null: the freshest measurement.</summary>
    public double? DiameterMetres { get; init; }

    public string? Lot { get; init; }

    /// <summary>What the configuration says of the lot; null when it is not there.</summary>
    public LotTerms? LotTerms { get; init; }

    public Purpose Purpose { get; init; } = Purpose.Pick;

    /// <summary>The nominal diameter that the one used must be near, in metres; with <see cref="WithinMetres"/>.</summary>
    public double? NominalMetres { get; init; }

    /// <summary>How near, in metres.</summary>
    public double? WithinMetres { get; init; }

    public int Column { get; init; }

    public int Row { get; init; }

    /// <summary>The unit that the answer's lengths are served in.</summary>
    public ServedUnit Unit { get; init; } = ServedUnit.Metre;

    /// <summary>The decimals that its numbers are served with, 0 to 12.</summary>
    public int Decimals { get; init; } = FixedPoint.UsualDecimals;
}

/// <summary>A gauge station pushes a diameter.</summary>
public sealed record MeasureAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    public override string Verb => "measured";

    /// <summary>One or more readings, in metres.</summary>
    public required IReadOnlyList<double> ReadingsMetres { get; init; }

    public string? Unit { get; init; }

    public string? Gauge { get; init; }

    /// <summary>The gauge's terms; null when it is not known.</summary>
    public required GaugeTerms? Terms { get; init; }

    public string? Lot { get; init; }

    /// <summary>What the configuration says of the lot; null when it is not there.</summary>
    public LotTerms? LotTerms { get; init; }

    /// <summary>The ledger's last entry when the first reading came; null: the push comes straight from its sender.</summary>
    public long? Since { get; init; }

    /// <summary>
    /// When the first reading came, by the counter of the service's clock; null: with the push. The ledger's writer makes <see cref="Waited"/> of it.
    /// </summary>
    public long? FirstAt { get; init; }

    /// <summary>How many seconds passed since the first reading came; null: none that count.</summary>
    public double? Waited { get; init; }
}

/// <summary>The nests were cleared or refilled.</summary>
public sealed record EmptiedAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    public override string Verb => "emptied";

    /// <summary>Why its sender was refused before it could be decided, by the reason's name; null: it was not. It counts all the same.</summary>
    public string? Undecided { get; init; }
}

/// <summary>A controller has applied an answer. The fixture is the answer's.</summary>
public sealed record ConfirmAsk(Caller Caller, long Serial) : Ask(Caller, "")
{
    public override string Verb => "confirm";

    /// <summary>Numbers read back, by the names that they have in lines.</summary>
    public IReadOnlyDictionary<string, string> ReadBack { get; init; } = new Dictionary<string, string>();

    /// <summary>The fixtures whose answers this client may confirm; null: all.</summary>
    public IReadOnlySet<string>? Fixtures { get; init; }

    /// <summary>
    /// Whether it may confirm only what was served to this client, or to one of the same cell. Not so in a replay, which takes who may ask as given.
    /// </summary>
    public bool OwnAnswersOnly { get; init; }
}

/// <summary>Somebody brings a revision in force.</summary>
public sealed record AdoptAsk(Caller Caller, string Fixture, int Number) : Ask(Caller, Fixture)
{
    public override string Verb => "adopt";

    public required string By { get; init; }

    public required string Why { get; init; }

    /// <summary>The first digits of the digest that the file has to have, in lower case; null: whatever the file says now.</summary>
    public string? Digest { get; init; }

    /// <summary>The fixture's folder as just read; null when it is gone.</summary>
    public required FixtureFolder? Folder { get; init; }
}

/// <summary>Somebody is at the fixture: no ask is answered until the release.</summary>
public sealed record HoldAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    public override string Verb => "hold";

    /// <summary>Who: a fixture can have one hold of each name.</summary>
    public required string By { get; init; }

    public required string Why { get; init; }
}

/// <summary>A master of known diameter was seated in a nest and found again.</summary>
public sealed record RecheckAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    public override string Verb => "recheck";

    public required string By { get; init; }

    public string? Note { get; init; }

    /// <summary>The master's diameter, in metres.</summary>
    public required double MasterMetres { get; init; }

    /// <summary>The limit of error of that diameter, in metres; null: not stated.</summary>
    public double? WithinMetres { get; init; }

    public int Column { get; init; }

    public int Row { get; init; }

    /// <summary>Where its centre was found, in base, in metres.</summary>
    public required Vector3 FoundMetres { get; init; }

    /// <summary>Whether a miss refuses asks, from the configuration.</summary>
    public bool RefuseAfterMiss { get; init; }
}

/// <summary>Somebody is done at the fixture, or ends the hold of another.</summary>
public sealed record ReleaseAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    public override string Verb => "release";

    public required string By { get; init; }

    public required string Why { get; init; }

    /// <summary>Whose hold is released.</summary>
    public required string Of { get; init; }
}
