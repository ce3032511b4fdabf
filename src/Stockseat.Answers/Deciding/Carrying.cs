using Stockseat.Answers.Records;

namespace Stockseat.Answers.Deciding;

/// <summary>
/// Chooses the entries that a new ledger, or a snapshot, has to carry, so that nothing older is needed to know what holds. For given entries it must
/// choose the same for ever.
/// </summary>
public static class Carrying
{
    /// <summary>The entries that what holds comes from, in their order. Applied to nothing they make the same situation.</summary>
    /// <param name="entries">Entries that what holds was made of, in any order.</param>
    /// <param name="situation">What holds.</param>
    public static IReadOnlyList<EntryBody> Of(IEnumerable<EntryBody> entries, Situation situation)
    {
        var ordered = entries.DistinctBy(e => e.Serial).OrderBy(e => e.Serial).ToList();
        var lastMeasured = Newest(ordered.Where(IsMeasured));
        var lastRejected = Newest(ordered.Where(e => e is RevisionRejectedBody));
        var lastEmptied = Newest(ordered.Where(e => e is EmptiedBody)); // clears readings from before it, also when something was measured since
        var lastHeld = ordered.OfType<HeldBody>().GroupBy(e => e.Fixture).Select(g => g.Last()).ToList();
        return [.. ordered.Where(e =>
            Stands(e, situation) || lastMeasured.Contains(e.Serial) || lastRejected.Contains(e.Serial) || lastEmptied.Contains(e.Serial)
                || lastHeld.Exists(h => IsOfHold(e, h)))];
    }

    /// <summary>The newest hold clears readings that came before it, also when it was released since: both are carried then.</summary>
    private static bool IsOfHold(EntryBody entry, HeldBody newest) =>
        entry == newest
        || (entry is ReleasedBody released && released.Serial > newest.Serial && (released.Fixture, released.Of) == (newest.Fixture, newest.By));

    private static bool Stands(EntryBody entry, Situation situation)
    {
        var state = entry.Fixture is { } name ? situation.Find(name) : null;
        return entry switch
        {
            RevisionAdoptedBody => true, // Also those no more in force: a number is never used for other values.
            HeldBody b => state?.Holds.TryGetValue(b.By, out var hold) == true && hold.Serial == b.Serial,
            ConfirmationBody b => b.Serial == state?.ConfirmedPick?.Serial || b.Serial == state?.ConfirmedPlace?.Serial,
            RecheckBody b => b.Serial == state?.Missed?.Serial,
            LotDescribedBody b => situation.Lots.GetValueOrDefault(b.Lot)?.Serial == b.Serial,
            ClockStepBody b => b.Serial == situation.StepBack?.Serial,
            _ => false,
        };
    }

    /// <summary>What makes or voids a measurement: only the newest of a fixture counts.</summary>
    private static bool IsMeasured(EntryBody entry) => entry is MeasurementBody or EmptiedBody || Situation.Voids(entry);

    private static HashSet<long> Newest(IEnumerable<EntryBody> entries) => [.. entries.GroupBy(e => e.Fixture).Select(g => g.Max(e => e.Serial))];
}
