using Stockseat.Answers.Adopt;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Roll;
using Stockseat.Answers.State;

namespace Stockseat.Ledger.Sessions;

/// <summary>Whether what a request id led to still holds, one rule a kind of outcome.</summary>
/// <param name="situation">What holds now.</param>
/// <param name="heldSince">Whether whose hold was released held the fixture again after that release.</param>
internal sealed class OutcomeInForce(Situation situation, Func<ReleasedBody, bool> heldSince)
{
    /// <summary>Why it holds no more; null while it does.</summary>
    /// <param name="first">The first outcome.</param>
    /// <param name="now">What the ask comes to when it is decided as a new one.</param>
    public string? Lapsed(EntryBody first, EntryBody now) => first switch
    {
        RefusalBody b => Refused(b, now),
        AnswerBody b => Answered(b, now),
        MeasurementBody b => Measured(b),
        EmptiedBody b => Emptied(b),
        ConfirmationBody b => Confirmed(b),
        RevisionAdoptedBody b => Adopted(b),
        HeldBody b => Held(b),
        ReleasedBody b => Released(b),
        RecheckBody b => Rechecked(b, now),
        LotDescribedBody b => Described(b, now),
        RolledOverBody b => Rolled(b),
        _ => throw new ArgumentOutOfRangeException(nameof(first), first.Kind, "no ask leads to such an entry"),
    };

    /// <summary>How an outcome is called in a refusal's text.</summary>
    public static string Name(EntryBody first) => first switch
    {
        RefusalBody b => $"refusal {b.Serial} ({b.Reason})",
        EmptiedBody b => $"emptied {b.Serial}",
        RevisionAdoptedBody b => $"adoption {b.Serial}",
        HeldBody b => $"hold {b.Serial}",
        ReleasedBody b => $"release {b.Serial}",
        LotDescribedBody b => $"lot description {b.Serial}",
        RolledOverBody b => $"roll {b.Serial}",
        _ => $"{first.Kind} {first.Serial}",
    };

    /// <summary>A push that was refused left no measurement: one that stands since must not stay when the same is pushed again.</summary>
    private string? Refused(RefusalBody b, EntryBody now) =>
        now is not RefusalBody { Number: var number } ? "it would not be refused now"
        : number != b.Number ? "it would be refused for another reason now"
        : b.Asked == "measured" ? MeasuredSince(b) : null;

    private static string? Answered(AnswerBody b, EntryBody now) =>
        now is AnswerBody n && (b.Digest, b.Measurement) == (n.Digest, n.Measurement)
            && b.Position.SequenceEqual(n.Position) && b.ShiftBase.SequenceEqual(n.ShiftBase)
            ? null
            : "another revision or measurement stands";

    private string? Measured(MeasurementBody b) => Of(b) switch
    {
        { Measurement: { } standing } => standing.Serial == b.Serial ? null : $"measurement {standing.Serial} stands",
        { NoMeasurement: var why } => why,
        null => "the fixture is gone",
    };

    private string? Emptied(EmptiedBody b) => MeasuredSince(b);

    private string? MeasuredSince(EntryBody b) =>
        Of(b)?.Measurement is { } standing && standing.Serial > b.Serial ? $"measurement {standing.Serial} stands since" : null;

    private string? Confirmed(ConfirmationBody b)
    {
        var standing = Of(b)?.Confirmed(b.Purpose == "place" ? Purpose.Place : Purpose.Pick);
        return standing?.Serial == b.Serial ? null
            : standing is null ? $"no shift of a {b.Purpose} is confirmed for the revision in force"
            : $"confirmation {standing.Serial} stands for a {b.Purpose}";
    }

    private string? Adopted(RevisionAdoptedBody b) => Of(b) is { AdoptedBy: var by, InForce: var revision }
        ? by == b.Serial && revision?.Digest == b.Digest ? null : $"revision {revision?.Number} is in force by entry {by}"
        : "the fixture is gone";

    /// <summary>Said again by the same name, the first hold stands, so it may be older than the one that was asked for.</summary>
    private string? Held(HeldBody b) => Of(b)?.Holds.GetValueOrDefault(b.By) switch
    {
        null => "it was released",
        var hold => hold.Serial <= b.Serial ? null : $"it was released, and entry {hold.Serial} holds again",
    };

    private string? Released(ReleasedBody b) =>
        Of(b)?.Holds.GetValueOrDefault(b.Of) is { } hold ? $"entry {hold.Serial} holds again"
        : heldSince(b) ? "that name has held it again since" : null;

    private string? Rechecked(RecheckBody b, EntryBody now) =>
        now is not RecheckBody n || (n.Digest, n.Passed, n.Refuses) != (b.Digest, b.Passed, b.Refuses) || !n.Predicted.SequenceEqual(b.Predicted)
            ? "it would be judged otherwise now"
        : Of(b)?.Missed is { } miss && miss.Serial > b.Serial ? $"recheck {miss.Serial} missed since" : null;

    /// <summary>What the configuration says of a lot comes first.</summary>
    private string? Described(LotDescribedBody b, EntryBody now) =>
        now is RefusalBody ? "the configuration describes the lot now"
        : situation.Lots.GetValueOrDefault(b.Lot) is { } lot && lot.Serial != b.Serial ? $"entry {lot.Serial} describes the lot"
        : null;

    private string? Rolled(RolledOverBody b) =>
        situation.Begins == b.Serial + 1 ? null : $"the ledger rolled over again and now begins with entry {situation.Begins}";

    private FixtureState? Of(EntryBody b) => b.Fixture is { } name ? situation.Find(name) : null;
}
