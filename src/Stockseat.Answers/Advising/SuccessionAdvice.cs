using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Advising;

/// <summary>What a setter should know about a revision compared with the one before it.</summary>
internal static class SuccessionAdvice
{
    public static IEnumerable<Finding> Of(RevisionReading previous, RevisionReading reading)
    {
        var (before, after) = (previous.Revision!, reading.Revision!);
        var changes = RevisionChanges.Between(previous, reading);
        if (changes.Count == 0)
        {
            yield return Finding.Advice("revision", $"all its values are those of revision {before.Number}: adopting it would change nothing but "
                + $"the number. Leave it out, or make the change that was meant");
        }
        else if (before.Calibrated == after.Calibrated)
        {
            yield return Finding.Advice("calibrated", $"calibrated is the same as in revision {before.Number}, but other values differ. State who "
                + $"calibrated this revision, when and how");
        }
    }
}
