using Stockseat.Answers.Entries;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

public sealed class QuietDayTests
{
    [Fact]
    public async Task A_quiet_working_day_gives_no_finding_at_any_of_its_entries_from_the_first_use_on()
    {
        const string More =
            """, "limits": { "recheck": "0.3 mm", "uncertainty": "1 mm" }, "uncertainty": { "teaching": "0.1 mm", "askedDiameter": "0.05 mm" }""";
        using var day = await Day.Begin(More);
        await day.Recheck(0.1);
        await day.Prove();
        await day.Measure(80.1, "A", Day.Terms);
        await day.Use();
        await day.Use(76, purpose: Purpose.Place);
        await day.Use();
        await day.Hold("setter");
        await day.Release("setter");
        await day.Measure(79.9, "A", Day.Terms);
        await day.Use();
        await day.Emptied();
        await day.Measure(92.5, "B");
        await day.Use();
        var last = await day.Use(88, purpose: Purpose.Place);
        await day.Ledger.End();

        // From the entry that says that the nests are being emptied until the next ask, the robot's position was for the stock that was taken out.
        var refilling = day.Ledger.Rows()
            .Where(r => r.Kind == Kinds.Emptied || (r.Kind == Kinds.Measurement && r.Body.Contains("\"B\"", StringComparison.Ordinal))).Select(r => r.Serial)
            .ToHashSet();
        var wide = new ReviewQuestion { Before = TimeSpan.FromHours(1), After = TimeSpan.FromHours(1) };
        foreach (var row in day.Ledger.Rows().Where(r => !refilling.Contains(r.Serial)))
        {
            Assert.Empty(day.Review(wide with { Serial = row.Serial }).Findings);
        }

        var summary = day.Review(wide).Summary;
        Assert.StartsWith(
            "Around 08:04:20 UTC on 2026-11-25 nothing was found that went wrong, in 29 entries from 07:04:20 UTC to 09:04:20 UTC.", summary[0],
            StringComparison.Ordinal);
        Assert.StartsWith("If something did go wrong, its cause is something that the ledger does not know: ", summary[1], StringComparison.Ordinal);
        Assert.Contains($"for bed answer {last.Serial} of ", summary[^2], StringComparison.Ordinal);
        Assert.Equal(
            "How far this record can be trusted: the hashes of the entries shown fit together, the whole ledger (29 entries) was verified without a fault and "
                + "has no "
                + "seal, so somebody who can write it could have forged it, and all 29 entries that follow from others came out the same when computed again.",
                summary[^1]);
    }

    [Fact]
    public async Task Minutes_without_an_entry_say_so_and_show_the_last_answer()
    {
        using var day = await Day.Begin();
        var answer = await day.Use(80);
        day.Pass(TimeSpan.FromHours(2));

        var review = day.Review();

        Assert.Empty(review.Findings);
        Assert.Equal("Around 10:00:30 UTC on 2026-11-25 the ledger shows nothing: it has no entry from 09:50:30 UTC to 10:02:30 UTC.", review.Summary[0]);
        Assert.Equal(
            $"At 10:00:30 UTC the last answer was: for bed answer {answer.Serial} of 08:00:10 UTC to controller press-cell, a pick with 80.000 mm as the "
                + "controller stated it, revision 1, shift bx 0.000, by 0.000, bz 0.000 mm, no confirmation found.", review.Summary[^2]);
    }

    [Fact]
    public async Task A_fixture_that_was_never_asked_for_is_reported()
    {
        using var day = await Day.Begin();

        Assert.Equal("No answer for bed from before 08:00:00 UTC was found, up to 20000 entries back.", day.Review().Summary[^2]);
    }
}
