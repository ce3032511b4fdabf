using Stockseat.Answers.Asking;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Verbs;

namespace Stockseat.Answers.Emptied;

/// <summary>The nests were cleared or refilled.</summary>
public sealed record EmptiedAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    public override string Verb => "emptied";

    /// <summary>Why its sender was refused before it could be decided, by the reason's name; null: it was not. It counts all the same.</summary>
    public string? Undecided { get; init; }
}
