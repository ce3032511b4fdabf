using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Loading;

/// <summary>Somebody says what stands in the nests.</summary>
public sealed record LoadedAsk(Caller Caller, string Fixture) : Ask(Caller, Fixture)
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "loaded";

    public override string Verb => VerbName;

    /// <summary>The lot of the stock; null: none is named.</summary>
    public string? Lot { get; init; }

    /// <summary>What the configuration says of the lot; null when the lot is not in it.</summary>
    public LotTerms? LotTerms { get; init; }

    /// <summary>Only so many nests, the first ones; 0: none, such as in a rack for finished parts; null: not stated so.</summary>
    public int? First { get; init; }

    /// <summary>Only these nests, column and row of each; null: not stated so. With neither, all nests.</summary>
    public IReadOnlyList<int[]>? Nests { get; init; }
}
