using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Referring;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Confirm;

/// <summary>A controller says that it has received an answer.</summary>
internal sealed class ConfirmVerb : Verb<ConfirmAsk, ConfirmationBody>
{
    public override string Name => ConfirmAsk.VerbName;

    public override EntryKind Kind { get; } = new ConfirmationKind();

    /// <summary>A client that may not confirm this answer may be allowed to confirm others.</summary>
    public override bool IsDeniedByContent(RefusalBody body) => body.Fixture is not null;

    protected override EntryBody Decide(ConfirmAsk ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find) =>
        ConfirmDecision.Decide(ask, situation, find);

    protected override ConfirmAsk AskOf(ConfirmationBody b) => new(Caller.Of(b), b.Confirms) { ReadBack = b.ReadBack ?? new Dictionary<string, string>() };

    protected override ConfirmAsk? AskOfRefused(RefusalBody b) => b.Confirms is not { } serial ? null : new(Caller.Of(b), serial)
    {
        ReadBack = b.ReadBack ?? new Dictionary<string, string>(),
        Fixtures = ReferredAnswer.FixturesOf(b),
        OwnAnswersOnly = ReferredAnswer.IsOfAnother(b),
    };

    protected override bool IsSame(ConfirmAsk a, ConfirmationBody b) => a.Serial == b.Confirms && SameNumbers(a, b.ReadBack);

    protected override bool IsSameRefused(ConfirmAsk a, RefusalBody r) => a.Serial == r.Confirms && SameNumbers(a, r.ReadBack);

    protected override string? Lapsed(ConfirmationBody first, DecidedAfresh now)
    {
        var standing = now.Of(first)?.Confirmed(first.Purpose == "place" ? Purpose.Place : Purpose.Pick);
        return standing?.Serial == first.Serial ? null
            : standing is null ? $"no shift of a {first.Purpose} is confirmed for the revision in force"
            : $"confirmation {standing.Serial} is the newest of a {first.Purpose}";
    }

    private static bool SameNumbers(ConfirmAsk ask, IReadOnlyDictionary<string, string>? read) =>
        ask.ReadBack.Count == (read?.Count ?? 0) && ask.ReadBack.All(p => read!.TryGetValue(p.Key, out var text) && text == p.Value);
}
