using Stockseat.Answers.Asking;
using Stockseat.Answers.Reasons;

namespace Stockseat.Answers.Hold;

/// <summary>Somebody is done at the fixture, or ends the hold of another.</summary>
public sealed record ReleaseAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    public override string Verb => "release";

    public required string By { get; init; }

    public required string Why { get; init; }

    /// <summary>Whose hold is released.</summary>
    public required string Of { get; init; }
}
