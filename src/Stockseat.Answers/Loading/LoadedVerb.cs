using System.Globalization;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Positions;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Stock;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Loading;

/// <summary>
/// Somebody says what stands in the nests. It may be said while the fixture is held, since that is when nests are filled, and it settles a move of the load
/// before it of which nobody said whether it was carried out.
/// </summary>
internal sealed class LoadedVerb : Verb<LoadedAsk, LoadedBody>
{
    /// <summary>The most nests of a load: its state has to stay small beside the answers. Our own choice.</summary>
    public const int MostNests = 10_000;

    public override string Name => LoadedAsk.VerbName;

    public override EntryKind Kind { get; } = new LoadedKind();

    public override string Outcome => "load";

    protected override EntryBody Decide(LoadedAsk ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find)
    {
        var state = situation.Find(ask.Fixture);
        var lot = situation.LotTerms(ask.Lot, ask.LotTerms);
        var refusal = ask.Denied
            ?? (state is null ? Unserved.Unknown(ask.Fixture) : state.InForce is null ? state.Refused : null)
            ?? Of(ask, state!.InForce!)
            ?? (ask.Lot is not null && lot is null ? LotFit.Unknown(ask.Lot) : null);
        if (refusal is not null)
        {
            return ask.Refuse(refusal, state) with { Lot = ask.Lot, LotTerms = lot, First = ask.First, Nests = ask.Nests };
        }

        var (revision, before) = (state!.InForce!, state.Load);
        var (columns, rows) = (revision.Layout.Columns, revision.Layout.Rows);
        return new LoadedBody
        {
            Fixture = ask.Fixture,
            Revision = revision.Number,
            Digest = revision.Digest,
            Lot = ask.Lot,
            LotTerms = lot,
            Columns = columns,
            Rows = rows,
            First = ask.First,
            Nests = ask.Nests,
            Count = ask.Nests?.Count ?? ask.First ?? (columns * rows),
            Replaces = before?.Serial,
            ReplacedLeft = before?.Raw.Count,
            Unfinished = before?.Open?.Answer,
        };
    }

    protected override LoadedAsk AskOf(LoadedBody b) =>
        new(Caller.Of(b), b.Fixture ?? "") { Lot = b.Lot, LotTerms = b.LotTerms, First = b.First, Nests = b.Nests };

    protected override LoadedAsk? AskOfRefused(RefusalBody b) =>
        new(Caller.Of(b), b.Fixture ?? "") { Lot = b.Lot, LotTerms = b.LotTerms, First = b.First, Nests = b.Nests };

    protected override bool IsSame(LoadedAsk a, LoadedBody b) =>
        (a.Fixture, a.Lot, a.First) == (b.Fixture, b.Lot, b.First) && SameNests(a.Nests, b.Nests);

    protected override bool IsSameRefused(LoadedAsk a, RefusalBody r) => (a.Lot, a.First) == (r.Lot, r.First) && SameNests(a.Nests, r.Nests);

    /// <summary>A load counts until another one is stated, or the nests are emptied.</summary>
    protected override string? Lapsed(LoadedBody first, DecidedAfresh now) => now.Of(first)?.Load switch
    {
        null => "the nests were emptied since",
        { Serial: var serial } => serial == first.Serial ? null : $"load {serial.ToString(CultureInfo.InvariantCulture)} is newer",
    };

    private static Refusal? Of(LoadedAsk ask, Revision revision)
    {
        var (columns, rows) = (revision.Layout.Columns, revision.Layout.Rows);
        var all = (long)columns * rows;
        return all > MostNests
                ? Refusal.Of(Reason.ValueMalformed, $"{revision.Fixture} has {all} nests; a load has at most {MostNests}: ask with locate, nest by nest")
            : ask is { First: not null, Nests: not null }
                ? Refusal.Of(Reason.ValueMalformed, "the first nests and single nests were both stated; state only one of them")
            : ask.First < 0 || ask.First > all
                ? Refusal.Of(Reason.ValueMalformed, $"the first {ask.First} nests were stated; {revision.Fixture} has {all}, and 0 to {all} were expected")
            : ask.Nests is { Count: 0 } ? Refusal.Of(Reason.ValueMalformed, "no nest was stated; one or more were expected")
            : ask.Nests?.FirstOrDefault(n => n is not [_, _] || !revision.Layout.Has(n[0], n[1])) is { } none
                ? Positioning.NoNest(revision, none.ElementAtOrDefault(0), none.ElementAtOrDefault(1))
            : ask.Nests is { } nests && nests.GroupBy(n => (n[0], n[1])).FirstOrDefault(g => g.Count() > 1) is { } twice
                ? Refusal.Of(Reason.ValueMalformed, $"nest {twice.Key.Item1},{twice.Key.Item2} was stated twice")
            : null;
    }

    private static bool SameNests(IReadOnlyList<int[]>? a, IReadOnlyList<int[]>? b) =>
        a is null || b is null ? a is null && b is null : a.Count == b.Count && a.Zip(b).All(p => p.First.SequenceEqual(p.Second));
}
