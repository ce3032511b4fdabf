using Stockseat.Answers.Asking;

namespace Stockseat.Answers.Roll;

/// <summary>Somebody has the ledger rolled over: it ends, and a new ledger continues it.</summary>
public sealed record RollAsk(Caller Caller) : Ask(Caller, "")
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "roll";

    public override string Verb => VerbName;

    public required string By { get; init; }

    public required string Why { get; init; }

    /// <summary>The id of the new ledger.</summary>
    public required string Next { get; init; }
}
