using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Lots;

/// <summary>Somebody describes a lot, while the service runs.</summary>
public sealed record DescribeLotAsk(Caller Caller, string Lot) : Ask(Caller, "")
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "describe-lot";

    public override string Verb => VerbName;

    public required LotTerms Terms { get; init; }

    /// <summary>Whether the configuration has a lot of that name.</summary>
    public required bool Configured { get; init; }
}
