using Stockseat.Answers.Asking;

namespace Stockseat.Answers.Emptied;

/// <summary>The nests were cleared or refilled.</summary>
public sealed record EmptiedAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "emptied";

    public override string Verb => VerbName;

    /// <summary>Why its sender was refused before it could be decided, by the reason's name; null: it was not. It counts all the same.</summary>
    public string? Undecided { get; init; }
}
