using Stockseat.Answers.Asking;

namespace Stockseat.Answers.Notes;

/// <summary>Somebody notes in their own words what happened.</summary>
/// <param name="Caller">Who asks.</param>
/// <param name="Fixture">Which fixture it is about; empty: none in particular.</param>
public sealed record NoteAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "note";

    public override string Verb => VerbName;

    /// <summary>Who wrote it.</summary>
    public required string By { get; init; }

    /// <summary>What they say.</summary>
    public required string Text { get; init; }

    /// <summary>The entry that it is about; null: an instant.</summary>
    public long? Entry { get; init; }

    /// <summary>The instant that it is about; null: an entry, or now.</summary>
    public DateTimeOffset? Instant { get; init; }
}
