using Stockseat.Answers.Asking;

namespace Stockseat.Answers.Hold;

/// <summary>Somebody is at the fixture: no ask is answered until they release it.</summary>
public sealed record HoldAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "hold";

    public override string Verb => VerbName;

    /// <summary>Who holds: a fixture can have one hold for each name.</summary>
    public required string By { get; init; }

    public required string Why { get; init; }
}
