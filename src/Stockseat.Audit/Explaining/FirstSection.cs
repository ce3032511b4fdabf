using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Seating.Frames;
using static Stockseat.Audit.Explaining.Steps;

namespace Stockseat.Audit.Explaining;

/// <summary>Whether an answer is marked first, to be run at reduced speed.</summary>
internal static class FirstSection
{
    public const string Title = "First run or not";

    /// <summary>The section, by the rules of the version in which the answer was recorded.</summary>
    public static WorkingSection Of(Located located, ServedBody answer, Vector3 shiftBase)
    {
        var steps = new Steps(Title);
        if (answer.Version == 1)
        {
            ByConfirmation(steps, located, shiftBase);
        }
        else
        {
            ByDone(steps, located, answer, shiftBase);
        }

        steps.Say(answer.First ? "The answer says first=yes: it is to be run at reduced speed, with people clear." : "The answer says first=no.");
        return steps.Section;
    }

    private static void ByConfirmation(Steps steps, Located located, Vector3 shiftBase)
    {
        if (located.State?.Confirmed(located.Purpose) is not { } confirmed)
        {
            steps.Say($"No shift has been confirmed for a {located.Purpose.Name()} since the revision was adopted, so the answer is marked first.");
            return;
        }

        steps.Given("confirmation", "the entry that last confirmed a shift", One, confirmed.Serial);
        Compare(steps, located, shiftBase, steps.Given(
            "b_c", "the shift in base that it confirmed (x, y, z)", Metre, new Vector3(confirmed.X, confirmed.Y, confirmed.Z)), "the confirmed one");
    }

    private static void ByDone(Steps steps, Located located, ServedBody answer, Vector3 shiftBase)
    {
        var purpose = located.Purpose.Name();
        if (answer.Proving == ServedBody.ProvingRequired)
        {
            var lacks = located.State?.Unproven.Count ?? 0;
            steps.Given("lacking", "how many rechecks are still needed to prove the revision, which the configuration requires", One, lacks);
        }

        if (located.Nest is { } nest && located.State?.Progress.IsDone(located.Purpose, nest.Column, nest.Row) != true)
        {
            steps.Say(
                $"No {purpose} at nest {Whole(nest.Column)},{Whole(nest.Row)} was carried out (done) since the revision was adopted or a recheck missed, so "
                + "the answer is marked first.");
            return;
        }

        if (located.State?.Progress.Last(located.Purpose) is not { } done)
        {
            return;
        }

        steps.Given("done", $"the entry that last said that a {purpose} was carried out", One, done.Serial);
        Compare(steps, located, shiftBase, steps.Given(
            "b_c", "the shift in base of that answer (x, y, z)", Metre, new Vector3(done.X, done.Y, done.Z)), "the one carried out");
    }

    private static void Compare(Steps steps, Located located, Vector3 shiftBase, Vector3 last, string from)
    {
        var distance = steps.Make(
            "|b - b_c|", $"how far the shift is now from {from}", "sqrt((bx - b_c.x)^2 + (by - b_c.y)^2 + (bz - b_c.z)^2)", Metre,
            (shiftBase - last).Length);
        var stated = located.Revision?.Limits.FirstAboveMetres;
        var limit = steps.Given(
            "limits.firstAbove", stated is null ? "how far it may be from it; not stated, so any change counts" : "how far it may be from it", Metre,
            stated ?? 0);
        steps.Compare("|b - b_c|", distance, "limits.firstAbove", limit, Metre);
    }
}
