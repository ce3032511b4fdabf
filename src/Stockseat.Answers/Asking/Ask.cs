using Stockseat.Answers.Reasons;

namespace Stockseat.Answers.Asking;

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
