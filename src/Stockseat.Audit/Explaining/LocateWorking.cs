using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Quantities;
using Stockseat.Seating.Seats;

namespace Stockseat.Audit.Explaining;

/// <summary>An answer, or the refusal of a locate, beginning with its inputs.</summary>
internal static class LocateWorking
{
    /// <summary>A result that differs from what is recorded by more than this is reported: the steps round in another way than the code that serves.</summary>
    private const double Rounding = 1e-12;

    /// <summary>The sections of an answer.</summary>
    public static IEnumerable<WorkingSection> Of(ServedBody answer, Situation before, MeasurementBody? measured, LengthUnit unit)
    {
        var located = Located.Of(answer, before, measured) with { Unit = unit };
        yield return InputSection.Of(located);
        if (located is { Revision: { } revision, Diameter: { } diameter, StandOff: { } standOff })
        {
            foreach (var section in Answer(located, answer, revision, diameter, standOff))
            {
                yield return section;
            }
        }

        yield return ServedSection.Of(answer);
    }

    /// <summary>The sections of a refusal: the steps up to the refusal, and the comparison that caused it.</summary>
    public static IEnumerable<WorkingSection> Of(RefusalBody refusal, Situation before, MeasurementBody? measured, LengthUnit unit)
    {
        var located = Located.Of(refusal, before, measured) with { Unit = unit };
        yield return InputSection.Of(located);
        Plan? plan = null;
        if (located is { Revision: { } revision, Diameter: { } diameter, StandOff: { } standOff }
            && ReachesPlan(RefusedSection.Why(refusal)) && revision.Layout.Has(located.Nest?.Column ?? 0, located.Nest?.Row ?? 0))
        {
            plan = InPlan(revision, located.Purpose, diameter, standOff, located.Unit);
            var reached = RefusedSection.Why(refusal) == Reason.CalibrationUnusable ? plan.Sections.Take(2) : plan.Sections; // the taught seat alone
            foreach (var section in reached)
            {
                yield return section;
            }

            if (RefusedSection.Why(refusal) == Reason.UncertaintyAboveLimit && plan is { Taught: { } taught, Seat: { } seat })
            {
                foreach (var section in UncertaintySections.Of(located, revision, taught, seat))
                {
                    yield return section;
                }
            }
        }

        yield return LocateRefused.Of(refusal, located, plan?.Seat, plan?.Shift);
    }

    /// <summary>What is computed in the plan, as far as there is a seat.</summary>
    private sealed record Plan(IReadOnlyList<WorkingSection> Sections, Seat? Taught, Seat? Seat, PlanVector? Shift);

    private static IEnumerable<WorkingSection> Answer(Located located, ServedBody answer, Revision revision, double diameter, double standOff)
    {
        var plan = InPlan(revision, located.Purpose, diameter, standOff, located.Unit);
        foreach (var section in plan.Sections.SkipLast(1))
        {
            yield return section;
        }

        if (plan is { Taught: { } taught, Seat: { } seat, Shift: { } shift })
        {
            var (column, row) = located.Nest ?? (0, 0);
            var section = BaseSection.Of(revision, column, row, shift, located.Length, out var shiftBase);
            yield return Against(section, answer, revision, column, row, shiftBase);
            yield return plan.Sections[^1];
            yield return FirstSection.Of(located, answer, shiftBase);
            foreach (var part in UncertaintySections.Of(located, revision, taught, seat))
            {
                yield return part;
            }
        }
        else
        {
            yield return plan.Sections[^1];
        }
    }

    private static Plan InPlan(Revision revision, Purpose purpose, double diameter, double standOff, LengthUnit unit)
    {
        var sections = new List<WorkingSection> { PlanSections.OfLocators(revision.Nest) };
        sections.Add(PlanSections.OfSeat(PlanSections.TaughtSeat, revision.Nest, revision.TaughtDiameterMetres / 2, "R_t", out var taught));
        sections.Add(PlanSections.OfSeat(PlanSections.OwnSeat, revision.Nest, diameter / 2, "R", out var seat));
        sections.Add(PlanSections.OfClear(revision.Nest, diameter / 2, standOff, out var clear));
        PlanVector? shift = null;
        if (taught is { } from && clear is { } to)
        {
            sections.Add(PlanSections.OfShift(to, from.Centre, out var moved));
            shift = moved;
        }

        sections.Add(EnvelopeSection.Of(revision, purpose, diameter, seat, shift?.Length, unit));
        return new(sections, taught, seat, shift);
    }

    /// <summary>Says so when the steps do not give what is recorded.</summary>
    private static WorkingSection Against(WorkingSection section, ServedBody answer, Revision revision, int column, int row, Vector3 shiftBase)
    {
        var steps = new Steps(section.Title);
        var position = revision.TaughtOrigin.PositionMetres + revision.Layout.OffsetBase(revision.Frame, column, row) + shiftBase;
        Compare(steps, "shift in base", Steps.Three(answer.ShiftBase), shiftBase);
        Compare(steps, "position", Steps.Three(answer.Position), position);
        return section with { Lines = [.. section.Lines, .. steps.Section.Lines] };
    }

    private static void Compare(Steps steps, string what, Vector3? recorded, Vector3 worked)
    {
        if (recorded is not { } known)
        {
            steps.Say($"The {what} is not recorded as three numbers.");
        }
        else if (!((known - worked).Length <= Rounding * Math.Max(1, known.Length)))
        {
            steps.Say($"The recorded {what} differs: {Steps.M(known.X)} {Steps.M(known.Y)} {Steps.M(known.Z)} m.");
        }
    }

    private static bool ReachesPlan(Reason reason) =>
        reason is Reason.DiameterBelowEnvelope
            or Reason.DiameterAboveEnvelope or Reason.ShiftAboveLimit or Reason.MassAboveLimit or Reason.UncertaintyAboveLimit or Reason.CalibrationUnusable;
}
