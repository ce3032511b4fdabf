using Stockseat.Answers.Entries;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;
using static Stockseat.Audit.Explaining.Steps;

namespace Stockseat.Audit.Explaining;

/// <summary>A measurement, accepted or refused: its readings, their mean and spread, the lot, the envelope.</summary>
internal static class MeasurementWorking
{
    public const string Title = "Measurement";

    /// <summary>The sections of a measurement.</summary>
    public static IEnumerable<WorkingSection> Of(MeasurementBody body, Situation before, LengthUnit unit)
    {
        yield return Inputs(body);
        var steps = new Steps(Title);
        InputSection.Readings(steps, body.Readings, body.Diameter);
        InputSection.Gauge(steps, body.Gauge, body.Limits);
        Spread(steps, body.Readings, body.Agreement, body.Version, body.Diameter, body.LotTerms?.OutOfRound);
        Waited(steps, body.Waited, body.Since);
        steps.Given("fresh", "how long it may be used, from its first reading", Second, body.FreshFor);
        Lot(steps, body.Lot, body.LotTerms, body.Diameter);
        yield return steps.Section;
        if (Envelope(body, before, body.Diameter, unit) is { } section)
        {
            yield return section;
        }
    }

    /// <summary>The sections of a push that was refused.</summary>
    public static IEnumerable<WorkingSection> Of(RefusalBody body, Situation before, LengthUnit unit)
    {
        yield return Inputs(body);
        var steps = new Steps(Title);
        if (body.Diameter is { } diameter)
        {
            InputSection.Readings(steps, body.Readings, diameter);
            Spread(steps, body.Readings, body.Agreement, body.Version, diameter, body.LotTerms?.OutOfRound);
            Lot(steps, body.Lot, body.LotTerms, diameter);
            Waited(steps, body.Waited, body.Since);
        }
        else if (body.Undecided == true)
        {
            steps.Say(
                "The push was refused before it could be decided. This entry came later and makes the measurement before it void, "
                + "since the stock may have another diameter.");
        }
        else
        {
            steps.Say("No diameter is recorded.");
        }

        yield return steps.Section;
        if (RefusedSection.Why(body) is Reason.DiameterBelowEnvelope or Reason.DiameterAboveEnvelope or Reason.ShiftAboveLimit or Reason.MassAboveLimit
            && body.Diameter is { } refused && Envelope(body, before, refused, unit) is { } section)
        {
            yield return section;
        }

        yield return RefusedSection.Begin(body).Section;
    }

    private static WorkingSection Inputs(EntryBody body)
    {
        var steps = new Steps(InputSection.Title);
        InputSection.Entry(steps, body);
        return steps.Section;
    }

    private static void Spread(
        Steps steps, IReadOnlyList<double>? readings, double? stated, int rules, double diameter, double? outOfRound)
    {
        if (readings is not { Count: > 1 })
        {
            steps.Say("With one reading the spread is not known.");
            return;
        }

        var spread = steps.Make(
            "spread", "the largest reading minus the smallest", "largest d - smallest d, to a picometre", Metre,
            Math.Round(readings.Max() - readings.Min(), 12));
        if (Disagreement.Allowed(stated, rules, diameter) is not { } agrees)
        {
            steps.Say("The gauge states no Agreement, so the spread was not compared with a limit.");
            return;
        }

        if (stated is null)
        {
            steps.Make("agreement", "how far readings may spread without an Agreement of the gauge", "2 % of the mean d, at least 1 mm", Metre, agrees);
        }
        else
        {
            steps.Given("agreement", "how far readings of the gauge may spread", Metre, agrees);
        }

        steps.Given(
            "out of round", outOfRound is null ? "how much the diameters of one cross-section may differ; the lot does not state it, so 0 is used"
                : "how much the diameters of one cross-section may differ, as the lot states", Metre, outOfRound ?? 0);
        var allowed = steps.Make("allowed", "how far the readings may spread", "agreement + out of round", Metre, agrees + (outOfRound ?? 0));
        steps.Compare("spread", spread, "allowed", allowed, Metre, most: true, Rounding.Metres);
    }

    private static void Waited(Steps steps, double? waited, long? since)
    {
        if (waited is { } seconds)
        {
            steps.Given("waited", "how long before this entry its first reading came", Second, seconds);
        }

        if (since is { } serial)
        {
            steps.Say($"When its first reading came, the last entry was {Whole(serial)}: readings are not used after an entry that makes them void.");
        }
    }

    private static void Lot(Steps steps, string? lot, LotTerms? terms, double diameter)
    {
        InputSection.Lot(steps, lot, terms);
        if (terms is { Least: { } least, Greatest: { } greatest })
        {
            steps.Compare("D", diameter, "D_least(lot)", least, Metre, most: false, Rounding.Metres);
            steps.Compare("D", diameter, "D_greatest(lot)", greatest, Metre, most: true, Rounding.Metres);
        }
    }

    private static WorkingSection? Envelope(EntryBody body, Situation before, double diameter, LengthUnit unit)
    {
        var revision = body.Fixture is { } name ? before.Find(name)?.InForce : null;
        if (revision is null || (body.Digest is not null && body.Digest != revision.Digest))
        {
            return null;
        }

        var steps = new Steps(EnvelopeSection.Title);
        if (revision.Envelopes().Pick is not { } envelope)
        {
            steps.Say($"Revision {Whole(revision.Number)} allows no diameter for a pick.");
            return steps.Section;
        }

        var obstacles = revision.Around.Obstacles;
        steps.Given(
            "D_least", $"the least diameter that revision {Whole(revision.Number)} allows for a pick: {Wording.Of(envelope.Least, obstacles, unit)}", Metre,
            envelope.Least.DiameterMetres);
        steps.Given("D_greatest", $"the greatest that it allows: {Wording.Of(envelope.Greatest, obstacles, unit)}", Metre, envelope.Greatest.DiameterMetres);
        steps.Compare("D", diameter, "D_least", envelope.Least.DiameterMetres, Metre, most: false);
        steps.Compare("D", diameter, "D_greatest", envelope.Greatest.DiameterMetres, Metre);
        return steps.Section;
    }
}
