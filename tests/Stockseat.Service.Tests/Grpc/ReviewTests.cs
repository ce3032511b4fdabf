using Stockseat.V1;

namespace Stockseat.Service.Tests.Grpc;

/// <summary>What a review of a running service carries: other clients than the command line read it too.</summary>
public sealed class ReviewTests : GrpcCase
{
    [Fact]
    public async Task A_note_that_was_written_after_the_minutes_comes_with_the_review()
    {
        var answer = await Lookup.LocateAsync(new() { Fixture = "pinbed-1", DiameterMetres = 0.0924 });
        var note = await Ledger.NoteAsync(new() { By = "fitter", Text = "gripper hit pin 2 of nest 3,0", Entry = answer.Serial });

        var review = await Ledger.ReviewAsync(new() { Serial = answer.Serial, BeforeSeconds = 0, AfterSeconds = 0 });

        Assert.Contains("gripper hit pin 2 of nest 3,0", Assert.Single(review.Entries.Concat(review.Older), e => e.Serial == note.Serial).Body,
            StringComparison.Ordinal);
        Assert.Contains(review.Findings, f => f.Rule == "note" && f.Serials.SequenceEqual([answer.Serial, note.Serial]));
    }

    [Fact]
    public async Task The_first_finding_says_how_far_and_the_headline_gives_lot_and_diameter_before_and_after()
    {
        await Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0924 } });
        var before = await Lookup.LocateAsync(new() { Fixture = "pinbed-1" });
        await Gauge.RecordAsync(new() { Fixture = "pinbed-1", ReadingsMetres = { 0.0894 } });
        var after = await Lookup.LocateAsync(new() { Fixture = "pinbed-1" });

        var review = await Ledger.ReviewAsync(new() { Serial = after.Serial });

        var first = review.Findings[0];
        Assert.Equal("shift-jump", first.Rule);
        Assert.True(first is { HasMovedMetres: true, OnLastAnswer: true, BelowResolution: false });
        Assert.InRange(first.MovedMetres, 0.0015, 0.003); // half of 3 mm, and more between two pins
        var headline = Assert.Single(review.Headlines, h => h.Fixture == "pinbed-1");
        Assert.Equal((before.Serial, 0.0924, after.Serial, 0.0894, ""), (
            headline.Before.Answer, headline.Before.DiameterMetres, headline.After.Answer, headline.After.DiameterMetres, headline.After.Lot));
        Assert.StartsWith("Most likely ", review.Summary[0], StringComparison.Ordinal);
        Assert.Equal(headline.Text, review.Summary[1]);
        Assert.Empty(review.Changes);
    }
}
