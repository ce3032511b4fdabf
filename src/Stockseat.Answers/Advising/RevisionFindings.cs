using Stockseat.Answers.Entries;
using Stockseat.Fixtures.Adoption;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Advising;

/// <summary>Everything that a check of a revision's file finds, in one list, faults first. To add a source of findings, add one line here.</summary>
public static class RevisionFindings
{
    /// <summary>All findings.</summary>
    /// <param name="reading">The result of reading the file.</param>
    /// <param name="previous">The valid revision before it; null when there is none.</param>
    /// <param name="diameterMetres">The diameter at which the uncertainty is judged, in metres; null: the taught one.</param>
    /// <param name="from">How the diameter is measured; null: it is stated.</param>
    /// <param name="unit">The unit of the lengths in the texts.</param>
    /// <param name="checkedAt">The time and the other fixtures; null: not known.</param>
    public static IReadOnlyList<Finding> Of(
        RevisionReading reading, RevisionReading? previous, double? diameterMetres, DiameterFrom? from, LengthUnit unit, CheckedAt? checkedAt = null)
    {
        if (reading.Revision is not { } revision)
        {
            return [.. reading.Faults.Select(Finding.Fault)];
        }

        return
        [
            .. EnvelopeFaults.Of(revision.Prepare(), unit).Select(Finding.Fault),
            .. RevisionAdvice.Of(revision, diameterMetres ?? revision.TaughtDiameterMetres, from, unit),
            .. TouchAdvice.Of(revision, unit),
            .. StatementAdvice.Of(revision, unit),
            .. NestAdvice.Of(revision, unit),
            .. PlaceAdvice.Of(revision, checkedAt, unit),
            .. previous is null ? [] : SuccessionAdvice.Of(previous, reading),
        ];
    }
}
