using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Lots;

/// <summary>Somebody describes a lot. A lot of the configuration can be changed only in the configuration.</summary>
internal sealed class DescribeLotVerb : Verb<DescribeLotAsk, LotDescribedBody>
{
    public override string Name => DescribeLotAsk.VerbName;

    public override EntryKind Kind { get; } = new LotDescribedKind();

    public override string Outcome => "lot description";

    protected override EntryBody Decide(DescribeLotAsk ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find)
    {
        var refusal = ask.Denied ?? (ask.Configured ? Configured(ask.Lot) : null);
        if (refusal is not null)
        {
            return ask.Refuse(refusal) with { Lot = ask.Lot, LotTerms = ask.Terms };
        }

        var before = ask.Rules > 1 ? situation.Lots.GetValueOrDefault(ask.Lot) : null;
        return new LotDescribedBody { Lot = ask.Lot, LotTerms = ask.Terms, Replaces = before?.Serial, Before = before?.Terms };
    }

    protected override DescribeLotAsk AskOf(LotDescribedBody b) => new(Caller.Of(b), b.Lot) { Terms = b.LotTerms, Configured = false };

    protected override DescribeLotAsk? AskOfRefused(RefusalBody b) => b is { Lot: { } lot, LotTerms: { } terms }
        ? new(Caller.Of(b), lot) { Terms = terms, Configured = b.Number == (int)Reason.ValueMalformed }
        : null;

    protected override bool IsSame(DescribeLotAsk a, LotDescribedBody b) => (a.Lot, a.Terms) == (b.Lot, b.LotTerms);

    protected override bool IsSameRefused(DescribeLotAsk a, RefusalBody r) => (a.Lot, a.Terms) == (r.Lot, r.LotTerms);

    /// <summary>A lot's description in the configuration comes first.</summary>
    protected override string? Lapsed(LotDescribedBody first, DecidedAfresh now) =>
        now.Body is RefusalBody ? "the configuration describes the lot now"
        : now.Situation.Lots.GetValueOrDefault(first.Lot) is { } lot && lot.Serial != first.Serial ? $"entry {lot.Serial} describes the lot now"
        : null;

    private static Refusal Configured(string lot) =>
        new(Reason.ValueMalformed, $"lot {lot} is described in the configuration; change it there, under Lots, and restart the service");
}
