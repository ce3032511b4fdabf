using Microsoft.Extensions.Time.Testing;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Notes;
using Stockseat.Answers.Roll;
using Stockseat.Audit.Reviewing;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Showing;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Tests.Support.Clocks;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Audit.Tests.Reviewing;


/// <summary>What a review finds beyond its own minutes: across rolls, across clock steps, and among entries that are too many to show.</summary>
public sealed class ReviewReachTests
{
    private static readonly Caller Office = new("office", "b", null);

    [Fact]
    public async Task The_last_answer_and_the_emptied_nests_are_found_in_the_ledger_before_a_roll()
    {
        var time = new FakeTimeProvider(TestLedger.Start);
        using var ledger = await new TestLedger(time).Begin();
        await ledger.Do(TestLedger.Measured(0.091));
        var answer = await ledger.Do<AnswerBody>(TestLedger.Locate(null));
        var emptied = await ledger.Do<EmptiedBody>(new EmptiedAsk(new("gauge", null, null), "bed"));
        time.Advance(TimeSpan.FromHours(1));
        await ledger.Do(new RollAsk(Office) { By = "x", Why = "y", Next = "ledger-2" });
        await ledger.Do(TestLedger.Measured(0.085));
        time.Advance(TimeSpan.FromMinutes(1));

        var review = Of(ledger, new() { At = time.GetUtcNow() });
        var later = Of(ledger, new() { At = time.GetUtcNow(), Before = TimeSpan.FromSeconds(1) }); // its own minutes have no entry

        foreach (var stood in new[] { review, later }.Select(r => Assert.Single(r.Fixtures)))
        {
            Assert.Equal((answer.Serial, emptied.Serial), (stood.LastAnswer?.Serial, stood.Emptied?.Serial));
        }

        review.One(FindingRule.BeforeRefill, answer.Serial, emptied.Serial);
    }

    [Fact]
    public async Task Statements_about_the_stock_before_a_roll_count_between_two_answers()
    {
        var time = new FakeTimeProvider(TestLedger.Start);
        using var ledger = await new TestLedger(time).Begin();
        await ledger.Do(TestLedger.Measured(0.091));
        await ledger.Do(TestLedger.Locate(null));
        var emptied = await ledger.Do<EmptiedBody>(new EmptiedAsk(new("gauge", null, null), "bed"));
        await ledger.Do(new RollAsk(Office) { By = "x", Why = "y", Next = "ledger-2" });
        await ledger.Do(TestLedger.Measured(0.085));
        var answer = await ledger.Do<AnswerBody>(TestLedger.Locate(null));

        var review = Of(ledger, new() { Serial = answer.Serial });

        Assert.Contains(emptied.Serial, review.Answers[^1].Between!.Select(b => b.Serial));
        review.None(FindingRule.ShiftJump);
    }

    [Theory]
    [InlineData(-3600)]
    [InlineData(3600)]
    public async Task Minutes_that_end_with_a_clock_step_continue_after_it(int seconds)
    {
        var time = new SteppedTime();
        using var ledger = await new TestLedger(time).Begin();
        time.Advance(TimeSpan.FromMinutes(30));
        var old = await ledger.Do<AnswerBody>(TestLedger.Locate());
        time.Advance(TimeSpan.FromMinutes(1));
        time.Set(TimeSpan.FromSeconds(seconds));
        var last = await ledger.Do<AnswerBody>(TestLedger.Locate(0.095)); // a minute later, by the counter

        var before = Of(ledger, new() { At = EntryTime.Parse(old.At).AddSeconds(30), Before = TimeSpan.FromMinutes(2), After = TimeSpan.FromMinutes(2) });
        var after = Of(ledger, new() { At = EntryTime.Parse(old.At).AddSeconds(90), Before = TimeSpan.FromMinutes(2), After = TimeSpan.FromMinutes(2) });

        foreach (var review in new[] { before, after })
        {
            Assert.Equal([old.Serial, old.Serial + 1, last.Serial], review.Entries.Select(e => e.Serial));
        }

        Assert.Equal((old.Serial, old.Serial), (before.Then, before.Fixtures[0].LastAnswer!.Serial));
        Assert.Equal((last.Serial, last.Serial), (after.Then, after.Fixtures[0].LastAnswer!.Serial));
    }

    [Fact]
    public async Task Where_the_clock_was_set_back_the_robot_s_last_answer_is_found_by_serial()
    {
        var time = new SteppedTime();
        using var ledger = await new TestLedger(time).Begin();
        time.Advance(TimeSpan.FromMinutes(30));
        var answer = await ledger.Do<AnswerBody>(TestLedger.Locate());
        var emptied = await ledger.Do<EmptiedBody>(new EmptiedAsk(new("gauge", null, null), "bed"));
        time.Set(TimeSpan.FromMinutes(-20));
        await ledger.Do(TestLedger.Measured(0.085));
        time.Advance(TimeSpan.FromSeconds(5));

        var review = Of(ledger, new() { At = time.GetUtcNow() });

        review.One(FindingRule.BeforeRefill, answer.Serial, emptied.Serial);
    }

    [Fact]
    public async Task A_last_answer_among_the_entries_that_are_too_many_to_show_is_found()
    {
        var time = new FakeTimeProvider(TestLedger.Start);
        using var ledger = await new TestLedger(time).Begin();
        var answer = await ledger.Do<AnswerBody>(TestLedger.Locate());
        await ledger.End();
        Fill(ledger, answer.Serial + 2, 5000, 0);

        var review = Of(ledger, new() { At = TestLedger.Start.AddSeconds(60) });

        Assert.DoesNotContain(answer.Serial, review.Entries.Select(e => e.Serial));
        Assert.Equal(answer.Serial, Assert.Single(review.Fixtures).LastAnswer?.Serial);
    }

    [Fact]
    public async Task When_a_busy_service_started_after_the_instant_the_nearest_entries_are_shown()
    {
        using var ledger = await new TestLedger(new FakeTimeProvider(TestLedger.Start)).Begin();
        await ledger.End();
        ledger.Sql("INSERT INTO entry (serial, at, kind, body, hash) VALUES (4, '2026-11-25T08:10:00.000000Z', 'service-started', '{}', x'00')");
        Fill(ledger, 5, 30_000, 600);

        var review = Of(ledger, new() { At = TestLedger.Start.AddMinutes(5), After = TimeSpan.FromMinutes(20) });

        Assert.Equal((1, LedgerReview.MostEntries), (review.Entries[0].Serial, review.Entries[^1].Serial));
        Assert.Equal(30_000, review.Entries.Count + review.LeftOut);
    }

    [Fact]
    public async Task The_previous_measurement_of_the_same_lot_is_found_before_the_minutes()
    {
        var time = new FakeTimeProvider(TestLedger.Start);
        using var ledger = await new TestLedger(time).Begin();
        var old = await ledger.Do<MeasurementBody>(TestLedger.Measured(0.091, lot: "A"));
        await ledger.Do(new EmptiedAsk(new("gauge", null, null), "bed"));
        await ledger.Do(TestLedger.Measured(0.070, lot: "B"));
        time.Advance(TimeSpan.FromHours(1));
        await ledger.Do(new EmptiedAsk(new("gauge", null, null), "bed"));
        var far = await ledger.Do<MeasurementBody>(TestLedger.Measured(0.085, lot: "A"));

        Of(ledger, new() { Serial = far.Serial }).One(FindingRule.FarFromLot, old.Serial, far.Serial);
    }

    [Fact]
    public async Task A_note_that_was_written_after_the_minutes_and_is_about_them_is_found()
    {
        var time = new FakeTimeProvider(TestLedger.Start);
        using var ledger = await new TestLedger(time).Begin();
        var answer = await ledger.Do<AnswerBody>(TestLedger.Locate());
        time.Advance(TimeSpan.FromHours(2));
        var note = await ledger.Do<NoteBody>(new NoteAsk(Office, "bed") { By = "fitter", Text = "gripper hit pin 2", Entry = answer.Serial });
        await ledger.Do<NoteBody>(new NoteAsk(Office, "bed") { By = "fitter", Text = "about now" });
        var other = await ledger.Do<NoteBody>(new NoteAsk(Office, "bed") { By = "fitter", Text = "bang", Instant = TestLedger.Start.AddMinutes(1) });

        var review = Of(ledger, new() { Serial = answer.Serial });

        Assert.Equal([[answer.Serial, note.Serial], [other.Serial]], review.Findings.Where(f => f.Rule == FindingRule.Note).Select(f => f.Serials.ToArray()));
    }

    [Fact]
    public async Task A_cell_s_review_includes_fixtures_that_it_asked_for_before_the_minutes()
    {
        var time = new FakeTimeProvider(TestLedger.Start);
        using var ledger = await new TestLedger(time).Begin();
        var answer = await ledger.Do<AnswerBody>(TestLedger.Locate());
        time.Advance(TimeSpan.FromHours(1));
        var emptied = await ledger.Do<EmptiedBody>(new EmptiedAsk(new("gauge", null, null), "bed"));

        Of(ledger, new() { Serial = emptied.Serial, Cell = "demo" }).One(FindingRule.BeforeRefill, answer.Serial, emptied.Serial);
        Assert.Empty(Of(ledger, new() { Serial = emptied.Serial, Cell = "other" }).Entries);
        Assert.Equal("bed", Assert.Single(Of(ledger, new() { At = TestLedger.Start.AddHours(3), Cell = "demo" }).Fixtures).Fixture); // without entries too
    }

    [Fact]
    public async Task The_summary_says_what_was_looked_at_where_nothing_was_found()
    {
        using var day = await Day.Begin();
        await day.Use(82);

        Assert.Equal(
            "Around 08:00:30 UTC on 2026-11-25 nothing was found that went wrong, in the 5 entries nearest to it, of 35 from 07:50:30 UTC to 08:02:30 UTC, of "
                + "what concerns cell demo.", day.Review(new() { Cell = "demo" }, r => Proven(r) with { LeftOut = 30 }).Summary[0]);
        Assert.EndsWith(
            "08:02:30 UTC. One of them could not be read.",
            day.Review(with: r => Proven(r) with { Entries = [r.Entries[0] with { Body = null }, .. r.Entries.Skip(1)] }).Summary[0], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("measurement", "\"freshFor\":28800", "\"freshFor\":1e300")]
    [InlineData("measurement", "\"at\":\"2026", "\"at\":\"year 2026")]
    [InlineData("measurement", "\"readings\":[0.091]", "\"readings\":null")]
    [InlineData("answer", "\"nest\":[0,0]", "\"nest\":[]")]
    [InlineData("answer", "\"shiftBase\":[", "\"shiftBase\":null,\"x\":[")]
    [InlineData("answer", "\"at\":\"2026", "\"at\":null,\"x\":\"2026")]
    [InlineData("revision-adopted", "\"at\":\"2026", "\"at\":null,\"x\":\"2026")]
    public async Task A_review_of_an_entry_that_was_damaged_is_made_and_says_so(string kind, string was, string forged)
    {
        using var ledger = await new TestLedger(new FakeTimeProvider(TestLedger.Start)).Begin();
        await ledger.Do(TestLedger.Measured(0.091));
        await ledger.Do(TestLedger.Locate(null));
        await ledger.End();
        Assert.Equal(1, ledger.Sql($"UPDATE entry SET body = replace(body, '{was}', '{forged}') WHERE kind = '{kind}' AND instr(body, '{was}') > 0"));

        var review = Of(ledger, new() { Serial = 4 });

        Assert.Equal(5, review.Entries.Count);
        Assert.Contains(review.Findings, f => f.Rule == FindingRule.LedgerNotWhole);
    }

    [Fact]
    public async Task A_clock_step_whose_instant_was_damaged_does_not_prevent_a_review()
    {
        var time = new SteppedTime();
        using var ledger = await new TestLedger(time).Begin();
        time.Set(TimeSpan.FromMinutes(1));
        var answer = await ledger.Do<AnswerBody>(TestLedger.Locate());
        await ledger.End();
        Assert.Equal(1, ledger.Sql("UPDATE entry SET at = '2026-11-25T08:01:00zz' WHERE kind = 'clock-step'"));

        Assert.NotNull(Of(ledger, new() { Serial = answer.Serial }).Evidence.ChainFault);
    }

    private static Review Proven(Review review) => review with { Fixtures = [.. review.Fixtures.Select(f => f with { Unproven = [] })] };

    /// <summary>Entries that mean nothing, a hundred in a second.</summary>
    private static void Fill(TestLedger ledger, long from, long to, int seconds) => ledger.Sql(
        $"WITH RECURSIVE n(i) AS (SELECT {from} UNION ALL SELECT i + 1 FROM n WHERE i < {to}) INSERT INTO entry (serial, at, kind, body, hash)"
        + $" SELECT i, strftime('%Y-%m-%dT%H:%M:%f000Z', '2026-11-25 08:00:00', '+' || ({seconds} + i / 100.0) || ' seconds'),"
        + $" 'answer', '{{\"v\":1,\"kind\":\"answer\"}}', x'00' FROM n");

    private static Review Of(TestLedger ledger, ReviewQuestion question) =>
        LedgerReview.Of(ledger.Folder, question, null, Display.Plain, CancellationToken.None)!;
}
