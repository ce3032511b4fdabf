using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Still;

namespace Stockseat.Answers.Replaying;

/// <summary>
/// The situation on which an entry was decided: from the ledger, and, since no ledger holds the fixtures' folders, from the outcome of the entry. A fixture
/// that the outcome shows as known gets a folder without files, so that nothing in it has changed values or waits.
/// </summary>
public static class SituationThen
{
    /// <summary>The situation right before an entry.</summary>
    /// <param name="recorded">The entry.</param>
    /// <param name="situation">The situation by the ledger.</param>
    /// <param name="given">Whether the state of the folders had to be taken from the outcome.</param>
    public static Situation Of(EntryBody recorded, Situation situation, out bool given)
    {
        given = false;
        if (recorded.Fixture is not { } fixture)
        {
            return situation;
        }

        var reason = recorded is RefusalBody refusal ? ReasonOf(refusal) : Reason.None;
        switch (reason)
        {
            case Reason.FixtureWithdrawn when situation.Find(fixture) is { } known:
                given = true;
                // Even when none of its entries counts any more, the fixture is known until the folders are read again.
                return situation.With(known with { Folder = null });
            case Reason.FixtureUnknown or Reason.FixtureWithdrawn:
                given = true;
                return situation.WithChanges([new(fixture, situation.Find(fixture)?.Folder, null)]);
            case Reason.RevisionChanged when recorded is RefusalBody { Asked: not "adopt" }:
                given = true;
                return Changed(Present(situation, fixture), fixture);
            case Reason.MeasurementMissing:
                return Forgotten((RefusalBody)recorded, Present(situation, fixture), ref given);
            case Reason.CalibrationUnusable:
                situation = Present(situation, fixture);
                given = situation.Find(fixture) is { InForce: null, Unread: null };
                return situation;
            default:
                return Present(situation, fixture);
        }
    }

    /// <summary>The reason; of an answer that may no longer be used, the reason why every ask is refused now, where that is why.</summary>
    private static Reason ReasonOf(RefusalBody refusal) =>
        refusal.Number != (int)Reason.AnswerSuperseded || refusal.Limits?.GetValueOrDefault(Superseded.What) is not { } what ? (Reason)refusal.Number
        : what == Superseded.Gone ? Reason.FixtureUnknown
        : ReasonInfo.Find(what);

    private static Situation Present(Situation situation, string fixture) => situation.Find(fixture) is { Folder: not null }
        ? situation
        : situation.With((situation.Find(fixture) ?? new(fixture)) with { Folder = new(fixture, [], []) });

    private static Situation Changed(Situation situation, string fixture) => situation.With(situation.Find(fixture)! with { SaidChanged = true });

    /// <summary>
    /// A fixture that was never adopted and whose folder was away for a while was forgotten, and so was the reason why it had no measurement.
    /// </summary>
    private static Situation Forgotten(RefusalBody recorded, Situation situation, ref bool given)
    {
        var state = situation.Find(recorded.Fixture!)!;
        if (state is { Measurement: null, NoMeasurement: not FixtureState.NothingMeasured }
            && recorded.Text.Contains($": {FixtureState.NothingMeasured};", StringComparison.Ordinal))
        {
            given = true;
            return situation.With(state with { NoMeasurement = FixtureState.NothingMeasured });
        }

        return situation;
    }
}
