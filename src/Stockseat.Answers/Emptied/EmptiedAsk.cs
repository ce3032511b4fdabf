using Stockseat.Answers.Asking;

namespace Stockseat.Answers.Emptied;

/// <summary>The nests were cleared or refilled.</summary>
public sealed record EmptiedAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "emptied";

    public override string Verb => VerbName;

    /// <summary>
    /// Why the sender was refused before the ask could be decided, by the name of the reason; null: it was not refused. The ask counts in both cases.
    /// </summary>
    public string? Undecided { get; init; }
}
