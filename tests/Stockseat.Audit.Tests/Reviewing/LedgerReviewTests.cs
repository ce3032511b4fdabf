using Microsoft.Extensions.Time.Testing;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Roll;
using Stockseat.Audit.Reviewing;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Showing;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Tests.Support.Clocks;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Audit.Tests.Reviewing;


/// <summary>Which entries a review shows, what its answers were based on, and the state of the fixtures.</summary>
public sealed class LedgerReviewTests
{
    private static readonly Caller Office = new("office", "b", null);

    [Fact]
    public async Task The_window_is_the_entries_of_those_minutes()
    {
        var time = new FakeTimeProvider(TestLedger.Start);
        using var ledger = await new TestLedger(time).Begin();
        for (var i = 0; i < 10; i++)
        {
            time.Advance(TimeSpan.FromMinutes(1));
            await ledger.Do(TestLedger.Locate());
        }

        var review = Of(ledger, new() { At = TestLedger.Start.AddMinutes(5), Before = TimeSpan.FromMinutes(2), After = TimeSpan.FromMinutes(1) });

        Assert.Equal([5, 6, 7, 8], review.Entries.Select(e => e.Serial)); // from 3 to 6 minutes after the start, both included
        Assert.Equal((7, 12, 0), (review.Then, review.HeadSerial, review.LeftOut));
        Assert.Equal("ledger-1", review.Ledger);
        Assert.Equal(4, review.Answers[0].Before!.Serial); // from before the window
        Assert.Equal([0, 0, 0], review.Answers[0].Change!);
        Assert.Equal(7, Assert.Single(review.Fixtures).LastAnswer!.Serial);
        Assert.Equal(2, Assert.Single(review.Adoptions).Serial);
        Assert.Equal([2, 4], review.Older.Select(e => e.Serial));
        Assert.Null(review.Evidence.ChainFault);
    }

    [Fact]
    public async Task An_entry_names_its_instant_and_a_missing_entry_gives_no_review()
    {
        using var ledger = await new TestLedger(new FakeTimeProvider(TestLedger.Start)).Begin();
        await ledger.Do(TestLedger.Locate());
        await ledger.Do(TestLedger.Locate());

        var review = Of(ledger, new() { Serial = 3 });

        Assert.Equal((TestLedger.Start, 3), (review.At, review.Then));
        Assert.Equal(3, review.Fixtures[0].LastAnswer!.Serial); // at the same instant as the next answer, and yet before it
        Assert.Null(LedgerReview.Of(ledger.Folder, new() { Serial = 99 }, null, Display.Plain, CancellationToken.None));
        Assert.Null(LedgerReview.Of(ledger.Folder, new() { Serial = 0 }, null, Display.Plain, CancellationToken.None));
    }

    [Fact]
    public async Task Minutes_without_entries_still_show_the_state_of_the_fixtures()
    {
        var time = new FakeTimeProvider(TestLedger.Start);
        using var ledger = await new TestLedger(time).Begin();
        await ledger.Do(TestLedger.Measured(0.091, lot: "A"));
        await ledger.Do(new HoldAsk(Office, "bed") { By = "setter", Why = "pins" });

        var later = Of(ledger, new() { At = TestLedger.Start.AddDays(40) });
        var before = Of(ledger, new() { At = TestLedger.Start.AddDays(-1) });

        Assert.Empty(later.Entries);
        Assert.Equal(4, later.Then);
        Assert.Equal((2, 3), (later.Fixtures[0].Adopted!.Serial, later.Fixtures[0].Measurement!.Serial));
        Assert.Equal("setter", Assert.Single(later.Fixtures[0].Holds).By);
        Assert.Equal(0, before.Then);
        Assert.Empty(before.Fixtures);
        Assert.NotNull(Of(ledger, new() { At = DateTimeOffset.MaxValue }));
        Assert.NotNull(Of(ledger, new() { At = DateTimeOffset.MinValue }));
    }

    [Fact]
    public async Task The_confirmation_of_an_answer_is_found_also_after_the_window()
    {
        var time = new FakeTimeProvider(TestLedger.Start);
        using var ledger = await new TestLedger(time).Begin();
        await ledger.Do(TestLedger.Measured(0.091));
        time.Advance(TimeSpan.FromMinutes(1));
        var answer = await ledger.Do<AnswerBody>(TestLedger.Locate(null));
        await ledger.Do<RefusalBody>(TestLedger.Confirm(answer.Serial, by: "0.1"));
        time.Advance(TimeSpan.FromHours(1));
        var confirmed = await ledger.Do<ConfirmationBody>(TestLedger.Confirm(answer.Serial));

        var served = Assert.Single(Of(ledger, new() { Serial = answer.Serial, Before = TimeSpan.Zero }).Answers);

        Assert.Equal((confirmed.Serial, 3), (served.ConfirmedBy, served.Measurement!.Serial));
        Assert.Equal(5, Assert.Single(served.Misread).Serial);
        Assert.True(served.Follows);
        Assert.Null(served.Before);
        Assert.Null(served.Change);
    }

    [Fact]
    public async Task A_review_of_one_fixture_or_cell_shows_entries_about_it_and_entries_about_all()
    {
        var time = new FakeTimeProvider(TestLedger.Start);
        using var ledger = await new TestLedger(time).Begin();
        await ledger.Do(TestLedger.Measured(0.091)); // the gauge does not belong to a cell
        await ledger.Do(TestLedger.Locate());
        await ledger.Do(new HoldAsk(Office, "other") { By = "x", Why = "y" });
        await ledger.Do(new LocateAsk(Office, "other") { DiameterMetres = 0.09 });

        Assert.Equal([1, 2, 3, 4], Serials(new() { Serial = 4, Fixture = "bed" }));
        Assert.Equal([1, 5, 6], Serials(new() { Serial = 4, Fixture = "other" }));
        Assert.Equal([1, 2, 3, 4], Serials(new() { Serial = 4, Cell = "demo" }));
        Assert.Equal([1], Serials(new() { Serial = 4, Cell = "none" }));
        Assert.Equal([1, 2, 3, 4, 5, 6], Serials(new() { Serial = 4 }));
        IEnumerable<long> Serials(ReviewQuestion question) => Of(ledger, question).Entries.Select(e => e.Serial);
    }

    [Theory]
    [InlineData(-3600)]
    [InlineData(3600)]
    public async Task Where_the_clock_was_set_the_minutes_that_really_passed_count(int seconds)
    {
        var time = new SteppedTime();
        using var ledger = await new TestLedger(time).Begin();
        time.Advance(TimeSpan.FromMinutes(30));
        var old = await ledger.Do<AnswerBody>(TestLedger.Locate());
        time.Advance(TimeSpan.FromMinutes(1));
        time.Set(TimeSpan.FromSeconds(seconds));
        var last = await ledger.Do<AnswerBody>(TestLedger.Locate(0.095));

        var review = Of(ledger, new() { Serial = last.Serial, Before = TimeSpan.FromMinutes(2), After = TimeSpan.Zero });
        var from = Of(ledger, new() { Serial = old.Serial, Before = TimeSpan.Zero, After = TimeSpan.FromMinutes(2) });

        Assert.Equal([old.Serial, old.Serial + 1, last.Serial], review.Entries.Select(e => e.Serial));
        Assert.Equal(Kinds.ClockStep, review.Entries[1].Row.Kind);
        Assert.Equal(old.Serial, review.Answers[1].Before!.Serial);
        Assert.Contains(old.Serial, from.Entries.Select(e => e.Serial));
    }

    [Fact]
    public async Task The_previous_answer_is_the_previous_one_in_the_ledger_whatever_the_clock_says()
    {
        var time = new SteppedTime();
        using var ledger = await new TestLedger(time).Begin();
        await ledger.Do(TestLedger.Locate(0.085)); // at 8:00
        time.Advance(TimeSpan.FromHours(3));
        var between = await ledger.Do<AnswerBody>(TestLedger.Locate(0.095)); // at 11:00
        time.Advance(TimeSpan.FromHours(3));
        time.Set(TimeSpan.FromHours(-6));
        await ledger.Do(TestLedger.Locate(0.09)); // at 8:00 again

        var review = Of(ledger, new() { At = TestLedger.Start, Before = TimeSpan.FromMinutes(1), After = TimeSpan.FromMinutes(1) });

        Assert.DoesNotContain(between.Serial, review.Entries.Select(e => e.Serial));
        Assert.Equal(between.Serial, review.Answers[^1].Before!.Serial);
        Assert.Contains(between.Serial, review.Older.Select(e => e.Serial));
    }

    [Fact]
    public async Task A_busy_window_shows_the_nearest_entries_and_says_how_many_are_left_out()
    {
        var time = new FakeTimeProvider(TestLedger.Start);
        using var ledger = await new TestLedger(time).Begin();
        await ledger.End();
        const int Many = 30_000; // in 300 s
        ledger.Sql(
            $"WITH RECURSIVE n(i) AS (SELECT 4 UNION ALL SELECT i + 1 FROM n WHERE i < {Many}) INSERT INTO entry (serial, at, kind, body, hash)"
            + " SELECT i, strftime('%Y-%m-%dT%H:%M:%f000Z', '2026-11-25 08:00:00', '+' || (i / 100.0) || ' seconds'), 'answer', '{}', x'00' FROM n");

        var review = Of(ledger, new() { At = TestLedger.Start.AddSeconds(200) });

        Assert.Equal(LedgerReview.MostEntries, review.Entries.Count);
        Assert.Equal(Many, review.Entries.Count + review.LeftOut);
        Assert.Equal((19_000, 20_999), (review.Entries[0].Serial, review.Entries[^1].Serial));
        Assert.NotNull(review.Evidence.ChainFault);
    }

    [Fact]
    public async Task An_edited_entry_of_the_window_is_reported()
    {
        using var ledger = await new TestLedger(new FakeTimeProvider(TestLedger.Start)).Begin();
        await ledger.Do(TestLedger.Locate());
        await ledger.Do(TestLedger.Locate());
        await ledger.End();

        Assert.Null(Of(ledger, new() { Serial = 3 }).Evidence.ChainFault);
        ledger.Sql("UPDATE entry SET client = 'else' WHERE serial = 3");
        Assert.StartsWith("entry 3 has columns that are not copies", Of(ledger, new() { Serial = 3 }).Evidence.ChainFault, StringComparison.Ordinal);
        ledger.Sql("UPDATE entry SET client = 'bench', kind = 'service-stopped' WHERE serial = 3");
        Assert.NotNull(Of(ledger, new() { Serial = 3 }).Evidence.ChainFault);
        ledger.Sql("UPDATE entry SET kind = 'answer', body = replace(body, '0.09', '0.08') WHERE serial = 3");
        Assert.StartsWith("entry 3 does not follow", Of(ledger, new() { Serial = 3 }).Evidence.ChainFault, StringComparison.Ordinal);
        ledger.Sql("UPDATE entry SET body = 'x' WHERE serial = 3");
        Assert.Null(Of(ledger, new() { Serial = 3 }).Entries[2].Body); // shown, though it can't be read
    }

    [Fact]
    public async Task Entries_of_a_closed_ledger_are_reviewed_and_carried_ones_are_found_when_it_is_gone()
    {
        var time = new FakeTimeProvider(TestLedger.Start);
        using var ledger = await new TestLedger(time).Begin();
        var measured = await ledger.Do<MeasurementBody>(TestLedger.Measured(0.091));
        var first = await ledger.Do<AnswerBody>(TestLedger.Locate(null));
        time.Advance(TimeSpan.FromMinutes(1));
        await ledger.Do(new RollAsk(Office) { By = "x", Why = "y", Next = "ledger-2" });
        var second = await ledger.Do<AnswerBody>(TestLedger.Locate(null));

        var both = Of(ledger, new() { Serial = second.Serial });
        Assert.Equal([first.Serial, second.Serial], both.Answers.Select(a => a.Answer.Serial));
        Assert.All(both.Answers, a => Assert.Equal(measured.Serial, a.Measurement!.Serial));
        Assert.Null(both.Evidence.ChainFault);

        Directory.Delete(Path.Combine(ledger.Folder, "closed"), recursive: true);
        var alone = Of(ledger, new() { Serial = second.Serial });

        Assert.Equal(measured.Serial, Assert.Single(alone.Answers).Measurement!.Serial);
        Assert.Equal(2, alone.Fixtures[0].Adopted!.Serial);
        Assert.Contains(alone.Older, e => e.Serial == measured.Serial && e.Row.Hash.Length == 0);
    }

    private static Review Of(TestLedger ledger, ReviewQuestion question) =>
        LedgerReview.Of(ledger.Folder, question, null, Display.Plain, CancellationToken.None)!;
}
