using Stockseat.Answers.Entries;
using Stockseat.Fixtures.Adoption;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Advising;

/// <summary>All that a check of a revision's file finds, in one list: faults first. A new source of findings is one line here.</summary>
public static class RevisionFindings
{
    /// <summary>The findings.</summary>
    /// <param name="reading">What came of reading the file.</param>
    /// <param name="previous">The valid revision before it; null when there is none.</param>
    /// <param name="diameterMetres">The diameter that uncertainty is judged at, in metres; null: the taught one.</param>
    /// <param name="from">How it is measured; null: stated.</param>
    /// <param name="unit">The unit of their lengths.</param>
    public static IReadOnlyList<Finding> Of(RevisionReading reading, RevisionReading? previous, double? diameterMetres, DiameterFrom? from, LengthUnit unit)
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
            .. previous is null ? [] : SuccessionAdvice.Of(previous, reading),
        ];
    }
}
