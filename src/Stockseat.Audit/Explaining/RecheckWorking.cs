using Stockseat.Answers.Entries;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;
using static Stockseat.Audit.Explaining.Steps;

namespace Stockseat.Audit.Explaining;

/// <summary>A recheck: where the master should be, where it was found, and how far off that is.</summary>
internal static class RecheckWorking
{
    public const string Title = "Recheck";

    /// <summary>The sections.</summary>
    public static IEnumerable<WorkingSection> Of(RecheckBody body, Situation before)
    {
        var inputs = new Steps(InputSection.Title);
        InputSection.Entry(inputs, body);
        inputs.Say($"Found by {InputSection.Said(body.By)}; note: {InputSection.Said(body.Note)}.");
        var master = inputs.Given("D", "the master's diameter", Metre, body.Master);
        inputs.Make("R", "its radius", "D / 2", Metre, master / 2);
        if (body.MasterWithin is { } within)
        {
            inputs.Given("D_within", "the limit of error of the master's diameter", Metre, within);
        }
        else
        {
            inputs.Say("The limit of error of the master's diameter is not stated.");
        }

        var state = body.Fixture is { } name ? before.Find(name) : null;
        var known = state?.InForce is { } inForce
            && (body.Revision is null || inForce.Number == body.Revision) && (body.Digest is null || inForce.Digest == body.Digest) ? inForce : null;
        if (known is not null)
        {
            inputs.Make(
                "R_t", "the taught radius", "D_t / 2", Metre,
                inputs.Given("D_t", "the diameter that the origin was taught with", Metre, known.TaughtDiameterMetres) / 2);
            inputs.Given("g", "the stand-off: a master that is seated has none", Metre, 0);
        }
        else
        {
            inputs.Say("The revision that it depends on is not the one that was in force right before it, so where the master should be can't be computed.");
        }

        yield return inputs.Section;
        if (known is { } revision && Nest(body.Nest) is { } nest && body.Master > 0 && double.IsFinite(body.Master))
        {
            foreach (var section in Predicted(revision, nest, body.Master))
            {
                yield return section;
            }
        }

        var steps = new Steps(Title);
        Miss(steps, body, known?.Frame);
        Judged(steps, body);
        yield return steps.Section;
    }

    /// <summary>The miss, compared with its limit, or with U where no limit is stated.</summary>
    public static void Judged(Steps steps, RecheckBody body)
    {
        if (Three(body.MissBase) is not { } missed || body.Miss is not { } miss)
        {
            steps.Say("The miss is not recorded both as three numbers and in the plan's axes.");
            return;
        }

        var length = steps.Given("|miss|", "how long the miss is, as recorded", Metre, missed.Length);
        if (body.Limit is { } limit)
        {
            steps.Given("limits.recheck", "the most that the miss may be", Metre, limit);
            steps.Compare("|miss|", length, "limits.recheck", limit, Metre, most: true, Rounding.Metres);
        }
        else if (body.Expected is { } u)
        {
            var across = steps.Given("|miss.across|", "the size of the miss across, as recorded", Metre, Math.Abs(miss.Across));
            var along = steps.Given("|miss.along|", "the size of the miss along, as recorded", Metre, Math.Abs(miss.Along));
            steps.Given("U.across", "U (k = 2) by the revision, across", Metre, u.Across);
            steps.Given("U.along", "U (k = 2) by the revision, along", Metre, u.Along);
            if (across <= u.Across + Rounding.Metres)
            {
                steps.Compare("|miss.across|", across, "U.across", u.Across, Metre, most: true, Rounding.Metres);
                steps.Compare("|miss.along|", along, "U.along", u.Along, Metre, most: true, Rounding.Metres);
            }
            else
            {
                steps.Compare("|miss.along|", along, "U.along", u.Along, Metre, most: true, Rounding.Metres);
                steps.Compare("|miss.across|", across, "U.across", u.Across, Metre, most: true, Rounding.Metres);
            }
        }
        else
        {
            steps.Say("There is neither limits.recheck nor a known U, so the miss can't be judged.");
        }
    }

    private static IEnumerable<WorkingSection> Predicted(Revision revision, (int Column, int Row) nest, double master)
    {
        yield return PlanSections.OfLocators(revision.Nest);
        yield return PlanSections.OfSeat(PlanSections.TaughtSeat, revision.Nest, revision.TaughtDiameterMetres / 2, "R_t", out var taught);
        yield return PlanSections.OfSeat(PlanSections.OwnSeat, revision.Nest, master / 2, "R", out var seat);
        yield return PlanSections.OfClear(revision.Nest, master / 2, 0, out var clear);
        if (taught is { } from && seat is not null && clear is { } to)
        {
            yield return PlanSections.OfShift(to, from.Centre, out var shift);
            yield return BaseSection.Of(revision, nest.Column, nest.Row, shift, null, out _);
        }
    }

    private static void Miss(Steps steps, RecheckBody body, PlanFrame? frame)
    {
        if (Three(body.Predicted) is not { } predicted || Three(body.Found) is not { } found)
        {
            steps.Say("Where the master should be, or where it was found, is not recorded.");
            return;
        }

        steps.Given("p", "where its centre should be, in base, as recorded (x, y, z)", Metre, predicted);
        steps.Given("f", "where it was found, in base (x, y, z)", Metre, found);
        var miss = steps.Make("miss", "found minus predicted, in base (x, y, z)", "f - p", Metre, found - predicted);
        if (frame is not { } axes)
        {
            steps.Say("The plan's axes are not known: the revision is missing.");
            return;
        }

        steps.Given("u", "the plan's u axis in base", One, axes.U);
        steps.Given("v", "the plan's v axis in base, the seat axis", One, axes.V);
        steps.Given("w", "the plan's normal in base", One, axes.W);
        steps.Make("miss.along", "the miss along the seat axis", "miss . v = miss.x v.x + miss.y v.y + miss.z v.z", Metre, Vector3.Dot(miss, axes.V));
        steps.Make("miss.across", "the miss across the seat axis", "miss . u", Metre, Vector3.Dot(miss, axes.U));
        steps.Make("miss.out", "the miss out of the plan", "miss . w", Metre, Vector3.Dot(miss, axes.W));
    }
}
