using Stockseat.Answers.Asking;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Recheck;

/// <summary>A master of known diameter was seated in a nest and found again.</summary>
public sealed record RecheckAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "recheck";

    public override string Verb => VerbName;

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
