using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Seats;
using static Stockseat.Audit.Explaining.Steps;

namespace Stockseat.Audit.Explaining;

/// <summary>The comparison that led to the refusal of a locate, by its reason.</summary>
internal static class LocateRefused
{
    /// <summary>The section.</summary>
    /// <param name="refusal">The refusal.</param>
    /// <param name="located">What was asked.</param>
    /// <param name="seat">The seat at the diameter; null when there is none, or when the refusal came before it.</param>
    /// <param name="shift">The shift in the plan, in metres; null for the same causes.</param>
    public static WorkingSection Of(RefusalBody refusal, Located located, Seat? seat, PlanVector? shift)
    {
        var steps = RefusedSection.Begin(refusal);
        switch (RefusedSection.Why(refusal))
        {
            case Reason.NotPermitted:
                RefusedSection.NotHeld(steps, "who may ask for what, which is in the configuration");
                break;
            case Reason.FixtureUnknown:
                steps.Say(
                    $"Before this entry the ledger {(located.State is null ? "does not know" : "knows")} fixture {InputSection.Said(refusal.Fixture)} before "
                        + $"this entry.");
                RefusedSection.NotHeld(steps, "which fixture folders existed");
                break;
            case Reason.FixtureWithdrawn:
                RefusedSection.NotHeld(steps, $"whether the folder of {InputSection.Said(refusal.Fixture)} was there");
                break;
            case Reason.RevisionChanged:
                steps.Say($"Adopted with digest {InputSection.Said(located.Revision?.Digest ?? refusal.Digest)}.");
                RefusedSection.NotHeld(steps, "what the revision's file contained at that instant; it had another digest");
                break;
            case Reason.FixtureHeld: Held(steps, located); break;
            case Reason.CalibrationUnusable: Unusable(steps, located); break;
            case Reason.RecheckFailed: Missed(steps, located); break;
            case Reason.NestUnknown: NoNest(steps, located); break;
            case Reason.DiameterMissing:
                steps.Say(
                    located.Revision is { } revision ? $"returnsRawStock of revision {Whole(revision.Number)} is "
                        + $"{(revision.ReturnsRawStock ? "true" : "false")}, purpose {InputSection.Said(located.PurposeName)}, no diameter stated: "
                        + $"{(revision.ReturnsRawStock ? "a measurement is enough" : "a place needs a diameter")}."
                        : "Whether raw stock comes back is not known: the revision is missing.");
                break;
            case Reason.MeasurementMissing:
                steps.Say($"No measurement is valid for the fixture: {located.State?.NoMeasurement ?? "the ledger has none"}.");
                break;
            case Reason.MeasurementStale: Stale(steps, located); break;
            case Reason.MeasurementOutsideLot: OutsideLot(steps, located); break;
            case Reason.LotUnknown:
                steps.Say(
                    located.LotTerms is null
                        ? $"Nothing is recorded about lot {InputSection.Said(located.Lot)}: no description before this entry, and none in the configuration "
                            + $"then."
                        : $"Lot {InputSection.Said(located.Lot)} states no nominal and tolerance, and the diameter was stated, not measured.");
                break;
            case Reason.DiameterBelowEnvelope or Reason.DiameterAboveEnvelope or Reason.ShiftAboveLimit or Reason.MassAboveLimit:
                EnvelopeRefused.Add(steps, located, seat, shift);
                break;
            case Reason.UncertaintyAboveLimit: Unsure(steps, refusal, located); break;
            default: RefusedSection.NotHeld(steps, "what the request said, or which requests were remembered"); break;
        }

        return steps.Section;
    }

    private static void Held(Steps steps, Located located)
    {
        var holds = located.State?.Holds.Values.OrderBy(h => h.Serial).ToArray() ?? [];
        foreach (var hold in holds)
        {
            steps.Say($"Held by {hold.By} since entry {Whole(hold.Serial)}: {hold.Why}.");
        }

        var count = steps.Given("holds", "how many holds the fixture had", One, holds.Length);
        var most = steps.Given("holds allowed", "how many it may have for an answer", One, 0);
        steps.Compare("holds", count, "holds allowed", most, One);
    }

    private static void Unusable(Steps steps, Located located)
    {
        if (located.State?.InForce is null)
        {
            steps.Say("No revision of the fixture was in force before this entry.");
            RefusedSection.NotHeld(steps, "which files its folder had; the ledger has no adoption of any");
            return;
        }

        if (located.Revision is not { } revision)
        {
            steps.Say("The revision that it depends on is not the one that was in force right before it.");
            return;
        }

        var envelopes = revision.Envelopes();
        if ((located.Purpose == Purpose.Pick ? envelopes.Pick : envelopes.Place) is null && envelopes.Violated is { } violated)
        {
            steps.Given("D_t", "the taught diameter, which the revision does not allow", Metre, revision.TaughtDiameterMetres);
            EnvelopeRefused.Binds(steps, violated, revision, located.Unit);
        }
        else
        {
            steps.Say("Computed now, the revision allows its taught diameter; the verdict is taken as recorded.");
        }
    }

    private static void Missed(Steps steps, Located located)
    {
        if (located.State?.Missed is not { } miss)
        {
            steps.Say("No missed recheck is known right before it.");
            return;
        }

        steps.Given("recheck", "the entry of the recheck that missed", One, miss.Serial);
        RecheckWorking.Judged(steps, (RecheckBody)miss.Entry);
    }

    private static void NoNest(Steps steps, Located located)
    {
        if (located is not { Revision: { } revision, Nest: { } nest })
        {
            steps.Say("The layout, or the nest asked for, is not known here.");
            return;
        }

        var (columns, rows) = (revision.Layout.Columns, revision.Layout.Rows);
        Index(steps, "row", nest.Row, rows);
        Index(steps, "column", nest.Column, columns);
        if (nest.Row < 0 || nest.Row >= rows)
        {
            steps.Say("The row caused the refusal.");
            steps.Compare("row asked", nest.Row, nest.Row < 0 ? "first row" : "last row", nest.Row < 0 ? 0 : rows - 1, One, most: nest.Row >= 0);
        }
        else
        {
            steps.Compare(
                "column asked", nest.Column, nest.Column < 0 ? "first column" : "last column", nest.Column < 0 ? 0 : columns - 1, One, most: nest.Column >= 0);
        }
    }

    private static void Index(Steps steps, string name, int asked, int count)
    {
        steps.Given($"{name} asked", $"the {name} asked for; the first is 0", One, asked);
        steps.Given($"last {name}", $"the last {name} of the layout", One, count - 1);
    }

    private static void Stale(Steps steps, Located located)
    {
        if (located.State?.Measurement is not { } measurement)
        {
            steps.Say("No measurement was valid right before it.");
            return;
        }

        steps.Given("measurement", "the entry of the measurement that was valid", One, measurement.Serial);
        if (located.Before.StepBack is { } back && measurement.Serial < back.Serial)
        {
            steps.Given("clock step", "the entry of the newest step back of the clock", One, back.Serial);
            steps.Given("back", $"how far it was set back{(back.AtStart ? ", at least; it was found at a start" : "")}", Second, back.Seconds);
            steps.Say("The age of a measurement from before such a step is not known.");
            steps.Compare("measurement", measurement.Serial, "clock step", back.Serial, One, most: false);
            return;
        }

        if (Instant(located.Entry.At) is not { } at)
        {
            steps.Say("The instant of the entry is not recorded, so the age is not known.");
            return;
        }

        var age = steps.Make(
            "age", "how old the measurement was", $"{located.Entry.At} - {EntryTime.Text(measurement.At)}", Second, (at - measurement.At).TotalSeconds);
        if (age < 0)
        {
            steps.Given("-slack", "how far in the future it may seem to be", Second, -1);
            steps.Compare("age", age, "-slack", -1, Second, most: false);
        }
        else
        {
            steps.Given("fresh", "how long it may be used", Second, measurement.FreshFor.TotalSeconds);
            steps.Compare("age", age, "fresh", measurement.FreshFor.TotalSeconds, Second);
        }
    }

    private static void OutsideLot(Steps steps, Located located)
    {
        const double Slack = Rounding.Metres;
        if (located is { Measurement: not null, Lot: { } lot, State.Measurement: { } stood } && stood.Lot != lot)
        {
            steps.Say($"Lot asked for: {lot}; lot measured: {InputSection.Said(stood.Lot)}: they are not the same.");
        }
        else if (located is { Diameter: { } diameter, LotTerms: { Least: { } least, Greatest: { } greatest } }
            && (diameter < least - Slack || diameter > greatest + Slack))
        {
            steps.Given("D", "the diameter", Metre, diameter);
            var below = diameter < least;
            steps.Given(
                below ? "D_least(lot)" : "D_greatest(lot)", below ? "the least diameter of the lot" : "the greatest diameter of the lot", Metre,
                below ? least : greatest);
            steps.Compare("D", diameter, below ? "D_least(lot)" : "D_greatest(lot)", below ? least : greatest, Metre, most: !below, Slack);
        }
        else if (located is { Diameter: { } used, Nominal: { } nominal, Within: { } within })
        {
            var miss = steps.Make("|D - D_nominal|", "how far the diameter is from the nominal", "|D - D_nominal|", Metre, Math.Abs(used - nominal));
            steps.Given("within", "how far from it the diameter may be", Metre, within);
            steps.Compare("|D - D_nominal|", miss, "within", within, Metre, most: true, Slack);
        }
        else
        {
            steps.Say("What it was compared with is not recorded.");
        }
    }

    private static void Unsure(Steps steps, RefusalBody refusal, Located located)
    {
        if (located.Revision?.Limits.UncertaintyMetres is not { } limit)
        {
            steps.Say("The limit of the uncertainty is not known here.");
            return;
        }

        steps.Given("limits.uncertainty", "the most that U may be", Metre, limit);
        if (refusal.Uncertainty is { } sure)
        {
            var largest = steps.Given("U_recorded", "the largest U, along or across, as recorded", Metre, sure.Largest);
            steps.Compare("U_recorded", largest, "limits.uncertainty", limit, Metre);
        }
        else
        {
            steps.Say("U is not known, and an unknown U does not satisfy limits.uncertainty.");
        }
    }
}
