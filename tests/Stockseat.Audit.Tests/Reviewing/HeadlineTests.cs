using Stockseat.Audit.Reviewing;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

/// <summary>Lot and diameter before and after, what an adoption changed, and where notes belong.</summary>
public sealed class HeadlineTests
{
    [Fact]
    public async Task Without_a_change_among_the_findings_the_last_two_answers_of_the_purpose_count()
    {
        using var day = await Day.Begin();
        await day.Measure(82, "A");
        var before = await day.Use();
        await day.Use(76, purpose: Answers.Entries.Purpose.Place);
        await day.Emptied();
        await day.Measure(84, "B");
        var after = await day.Use();

        var headline = Assert.Single(day.OfFile().Headlines);

        Assert.Equal(("bed", before.Serial, "A", 0.082, after.Serial, "B", 0.084), (
            headline.Fixture, headline.Before!.Serial, headline.Before.Lot, headline.Before.DiameterMetres, headline.After!.Serial, headline.After.Lot,
            headline.After.DiameterMetres));
        Assert.Equal(
            $"bed: before, lot A, 82.000 mm for a pick by answer {before.Serial}; after, lot B, 84.000 mm by answer {after.Serial}.", headline.Text);
    }

    [Fact]
    public async Task The_same_stock_and_a_single_answer_are_said_as_such()
    {
        using var day = await Day.Begin();
        var one = await day.Use(82);
        Assert.Equal($"bed: no lot named, 82.000 mm for a pick by answer {one.Serial}; no pick before it is known here.", day.Review().Headlines[0].Text);

        var two = await day.Use(82);
        Assert.Equal(
            $"bed: no lot named, 82.000 mm for a pick, before (answer {one.Serial}) and after (answer {two.Serial}) the same.",
            day.Review().Headlines[0].Text);
    }

    [Fact]
    public async Task After_an_adoption_nothing_was_asked_and_what_it_changed_is_shown()
    {
        using var day = await Day.Begin();
        var before = await day.Use(82);
        var adopted = await day.Adopt(2, """, "standOff": { "pick": "0.5 mm" }""");

        var review = day.OfFile();

        Assert.Equal($"bed: before, no lot named, 82.000 mm for a pick by answer {before.Serial}; after, nothing was asked.", review.Summary[1]);
        var changes = Assert.Single(review.Changes);
        Assert.Equal((adopted.Serial, "bed", 1, 2), (changes.Serial, changes.Fixture, changes.Before, changes.After));
        Assert.Equal([("standOff.pick", null, "0.0005", "m")], changes.Changes.Select(c => (c.Key, c.Before, c.After, c.Unit)));
        // By hand: √(47.5² − 30²) − √(47² − 30²) = 0.647 mm.
        Assert.Equal(0.000647, review.Findings[0].MovedMetres!.Value, 6);
        review.First(FindingRule.AdoptionBetween, before.Serial, adopted.Serial)
            .Says($"Asked again after it, answer {before.Serial} would be 0.647 mm from where it was.");
    }

    [Fact]
    public async Task A_note_belongs_behind_its_entry_or_behind_the_last_entry_up_to_its_instant()
    {
        using var day = await Day.Begin();
        var one = await day.Locate(82);
        var middle = day.Now.AddSeconds(5);
        var two = await day.Locate(82);
        var now = await day.Note("about now");
        day.Pass(TimeSpan.FromHours(2));
        var ofEntry = await day.Note("hit pin 2", two.Serial);
        var ofInstant = await day.Note("bang", instant: middle);
        var ofOther = await day.Note("too late", instant: day.Now);

        var places = NotePlaces.Of(day.OfFile(new() { Serial = two.Serial }));

        Assert.Equal(
            [(one.Serial, ofInstant.Serial), (two.Serial, ofEntry.Serial)],
            places.SelectMany(p => p.Select(n => (p.Key, n.Serial))).OrderBy(p => p.Key));
        Assert.True(now.Serial < ofOther.Serial);
    }

    [Fact]
    public async Task A_later_note_of_no_fixture_about_these_minutes_is_found()
    {
        using var day = await Day.Begin();
        var answer = await day.Locate(82);
        day.Pass(TimeSpan.FromHours(2));
        var note = await day.Do<Answers.Notes.NoteBody>(
            new Answers.Notes.NoteAsk(new("tablet", "demo", null), "") { By = "fitter", Text = "the light went out", Entry = answer.Serial });

        day.OfFile(new() { Serial = answer.Serial }).One(FindingRule.Note, answer.Serial, note.Serial);
        day.OfFile(new() { Serial = answer.Serial, Fixture = "bed" }).One(FindingRule.Note, answer.Serial, note.Serial);
    }
}
