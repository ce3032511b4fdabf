using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Advising;

/// <summary>What a setter should know of a revision against the one before it.</summary>
internal static class SuccessionAdvice
{
    public static IEnumerable<Finding> Of(RevisionReading previous, RevisionReading reading)
    {
        var (before, after) = (previous.Revision!, reading.Revision!);
        var changes = RevisionChanges.Between(previous, reading);
        if (changes.Count == 0)
        {
            yield return Finding.Advice("revision", $"it states what revision {before.Number} states, to the last value: adopting it changes nothing but "
                + $"the number. Leave it out, or make the change that was meant");
        }
        else if (before.Calibrated == after.Calibrated)
        {
            yield return Finding.Advice("calibrated", $"calibrated is word for word that of revision {before.Number}, and other values differ. State who "
                + $"calibrated it now, when and how");
        }
    }
}
