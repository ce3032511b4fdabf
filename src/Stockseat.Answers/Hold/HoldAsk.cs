using Stockseat.Answers.Asking;
using Stockseat.Answers.Reasons;

namespace Stockseat.Answers.Hold;

/// <summary>Somebody is at the fixture: no ask is answered until the release.</summary>
public sealed record HoldAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    public override string Verb => "hold";

    /// <summary>Who: a fixture can have one hold of each name.</summary>
    public required string By { get; init; }

    public required string Why { get; init; }
}
