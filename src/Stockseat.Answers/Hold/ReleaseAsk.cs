using Stockseat.Answers.Asking;

namespace Stockseat.Answers.Hold;

/// <summary>Somebody has finished at the fixture, or ends the hold of somebody else.</summary>
public sealed record ReleaseAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "release";

    public override string Verb => VerbName;

    public required string By { get; init; }

    public required string Why { get; init; }

    /// <summary>The name whose hold is released.</summary>
    public required string Of { get; init; }
}
