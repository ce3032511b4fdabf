using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

public sealed class NotedTests
{
    [Fact]
    public async Task A_note_about_an_entry_is_shown_with_the_words_of_the_person()
    {
        using var day = await Day.Begin();
        var answer = await day.Use(82);
        var note = await day.Note("gripper hit pin 2 of nest 3,0", answer.Serial);

        var review = day.Review();

        review.One(FindingRule.Note, answer.Serial, note.Serial).Says(
            $"At 08:00:40 UTC fitter noted of bed about entry {answer.Serial} (entry {note.Serial}): \"gripper hit pin 2 of nest 3,0\".");
        Assert.Equal(FindingRule.Note, review.Findings[^1].Rule);
    }

    [Fact]
    public async Task A_note_about_an_instant_says_which()
    {
        using var day = await Day.Begin();
        var note = await day.Note("bang", instant: day.Now);

        day.Review().One(FindingRule.Note, note.Serial).Says("fitter noted of bed about 08:00:00 UTC (entry 3): \"bang\".");
    }
}
