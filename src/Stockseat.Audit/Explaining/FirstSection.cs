using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Seating.Frames;
using static Stockseat.Audit.Explaining.Steps;

namespace Stockseat.Audit.Explaining;

/// <summary>Whether an answer is marked first, to be run at reduced speed.</summary>
internal static class FirstSection
{
    public const string Title = "First run or not";

    /// <summary>The section.</summary>
    public static WorkingSection Of(Located located, AnswerBody answer, Vector3 shiftBase)
    {
        var steps = new Steps(Title);
        if (located.State?.Confirmed(located.Purpose) is not { } confirmed)
        {
            steps.Say($"No shift has been confirmed for a {located.Purpose.Name()} since the revision was adopted, so the answer is marked first.");
        }
        else
        {
            steps.Given("confirmation", "the entry that last confirmed a shift", One, confirmed.Serial);
            var last = steps.Given("b_c", "the shift in base that it confirmed (x, y, z)", Metre, new Vector3(confirmed.X, confirmed.Y, confirmed.Z));
            var distance = steps.Make(
                "|b - b_c|", "how far the shift is now from the confirmed one", "sqrt((bx - b_c.x)^2 + (by - b_c.y)^2 + (bz - "
                    + "b_c.z)^2)", Metre, (shiftBase - last).Length);
            var stated = located.Revision?.Limits.FirstAboveMetres;
            var limit = steps.Given(
                "limits.firstAbove", stated is null ? "how far it may be from it; not stated, so any change counts" : "how far it may be from "
                    + "it", Metre, stated ?? 0);
            steps.Compare("|b - b_c|", distance, "limits.firstAbove", limit, Metre);
        }

        steps.Say(answer.First ? "The answer says first=yes: it is to be run at reduced speed, with people clear." : "The answer says first=no.");
        return steps.Section;
    }
}
