using Stockseat.Answers.Entries;
using Stockseat.Answers.Notes;
using Stockseat.Audit.Reviewing.Facts;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Reviewing.Rules;

/// <summary>What somebody noted in these minutes, or later about them.</summary>
internal sealed class Noted : IFindingRule
{
    public IEnumerable<ReviewFinding> Find(ReviewFacts facts) =>
        facts.Bodies.Concat(facts.Review.Older.Select(e => e.Body)).OfType<NoteBody>().DistinctBy(n => n.Serial).Select(n => Of(facts, n));

    private static ReviewFinding Of(ReviewFacts facts, NoteBody note) => new(
        FindingRule.Note, note.Entry is { } entry ? [entry, note.Serial] : [note.Serial], note.Fixture,
        $"At {facts.Text.Time(note)} {note.By} noted{About(facts, note)} (entry {FindingText.Whole(note.Serial)}): \"{note.Text}\".",
        "These are a person's own words: the service did not check them.",
        "Ask who wrote it what they saw, and compare it with the entries around it.");

    private static string About(ReviewFacts facts, NoteBody note) =>
        (note.Fixture is null ? "" : $" of {note.Fixture}")
        + (note.Entry is { } entry ? $" about entry {FindingText.Whole(entry)}"
            : EntryTime.TryParse(note.Instant, out var instant) ? $" about {facts.Text.Time(instant)}" : "");
}
