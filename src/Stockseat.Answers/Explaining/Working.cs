using Stockseat.Answers.Deciding;
using Stockseat.Answers.Records;

namespace Stockseat.Answers.Explaining;

/// <summary>An entry worked out again step by step, so that a person can follow it with a pocket calculator.</summary>
/// <param name="Serial">The entry.</param>
/// <param name="Sections">Its parts, from the inputs to what was served.</param>
public sealed record Working(long Serial, IReadOnlyList<WorkingSection> Sections)
{
    /// <summary>Works out an entry again.</summary>
    /// <param name="recorded">The entry: an answer or a refusal; of other kinds its inputs are told.</param>
    /// <param name="before">What held right before it, with the fixtures' folders as the entry's outcome says that they were.</param>
    /// <param name="measurement">The measurement that it names, as recorded; null when it names none or that can't be found.</param>
    public static Working Of(EntryBody recorded, Situation before, MeasurementBody? measurement) => throw new NotImplementedException();
}
