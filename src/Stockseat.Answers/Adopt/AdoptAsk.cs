using Stockseat.Answers.Asking;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Adopt;

/// <summary>Somebody puts a revision into force.</summary>
public sealed record AdoptAsk(Caller Caller, string Fixture, int Number) : Ask(Caller, Fixture)
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "adopt";

    public override string Verb => VerbName;

    public required string By { get; init; }

    public required string Why { get; init; }

    /// <summary>The first digits of the digest that the file must have, in lower case; null: the file may have any values.</summary>
    public string? Digest { get; init; }

    /// <summary>The revision that must be in force; 0: none may be; null: any may be.</summary>
    public int? Expects { get; init; }

    /// <summary>The fixture's folder as it was just read; null when it is gone.</summary>
    public required FixtureFolder? Folder { get; init; }
}
