using Stockseat.Answers.Asking;

namespace Stockseat.Answers.Hold;

/// <summary>Somebody is at the fixture: no ask is answered until the release.</summary>
public sealed record HoldAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "hold";

    public override string Verb => VerbName;

    /// <summary>Who: a fixture can have one hold of each name.</summary>
    public required string By { get; init; }

    public required string Why { get; init; }
}
