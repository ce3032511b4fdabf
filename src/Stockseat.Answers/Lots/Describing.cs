using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Verbs;

namespace Stockseat.Answers.Lots;

/// <summary>Decides the description of a lot. What the configuration says of a lot can't be changed behind its back.</summary>
internal static class Describing
{
    public static EntryBody Decide(DescribeLotAsk ask)
    {
        var refusal = ask.Denied ?? (ask.Configured ? new(Reason.ValueMalformed, $"lot {ask.Lot} is one of the configuration; change it there, under Lots, and start the service again") : null);
        return refusal is null
            ? new LotDescribedBody { Lot = ask.Lot, LotTerms = ask.Terms }
            : Decision.Refuse(ask, refusal) with { Lot = ask.Lot, LotTerms = ask.Terms };
    }
}
