using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.Extensions.Time.Testing;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Ledger.Writing;

namespace Stockseat.Ledger.Tests.Writing;

public sealed class LedgerWriterTests
{
    [Fact]
    public async Task The_first_entries_are_the_start_with_the_ledger_s_id_and_the_adoption()
    {
        using var ledger = await new Support.Ledger().Begin();

        Assert.Equal([Kinds.ServiceStarted, Kinds.RevisionAdopted], ledger.Rows().Select(r => r.Kind));
        Assert.Equal("ledger-1", ledger.Verify().Ledger);
        Assert.Null(ledger.Writer.LastKind);
    }

    [Fact]
    public async Task Serials_have_no_gap_and_what_was_answered_is_what_is_written()
    {
        using var ledger = await new Support.Ledger().Begin();
        var told = new List<EntryBody>
        {
            await ledger.Do(Support.Ledger.Locate()),
            await ledger.Do(Support.Ledger.Locate(0.001)),
            await ledger.Do(Support.Ledger.Measured(0.091)),
            await ledger.Do(new EmptiedAsk(new("gauge", null, null), "bed")),
            await ledger.Do(Support.Ledger.Confirm(3)),
        };

        Assert.Equal([3, 4, 5, 6, 7], told.Select(b => b.Serial));
        var rows = ledger.Rows();
        Assert.Equal(Enumerable.Range(1, 7).Select(i => (long)i), rows.Select(r => r.Serial));
        Assert.Equal(["answer", "refusal", "measurement", "emptied", "confirmation"], rows.Skip(2).Select(r => r.Kind));
        Assert.All(told, b => Assert.Equal((b.Kind, b.At, b.Fixture, b.Revision, b.Client, b.Tag), Columns(rows[(int)b.Serial - 1])));
        Assert.Equal(7, ledger.Writer.Serial);
        Assert.Equal(((AnswerBody)told[0]).ShiftBase, ((AnswerBody)rows[2].ReadBody()!).ShiftBase);
    }

    [Fact]
    public async Task The_chain_is_right_by_an_independent_calculation()
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do(Support.Ledger.Locate());
        await ledger.Do(Support.Ledger.Measured(0.091));

        var previous = new byte[32];
        Assert.All(ledger.Rows(), row =>
        {
            previous = SHA256.HashData([1, .. previous, .. Encoding.UTF8.GetBytes(row.Body)]);
            Assert.Equal(previous, row.Hash);
            Assert.StartsWith($$"""{"v":2,"serial":{{row.Serial}},"at":"{{row.At}}","kind":"{{row.Kind}}",""", row.Body, StringComparison.Ordinal);
        });
    }

    [Fact]
    public async Task The_instant_is_the_clock_s_truncated_to_microseconds()
    {
        var time = new FakeTimeProvider(Support.Ledger.Start);
        using var ledger = await new Support.Ledger(time).Begin();
        time.Advance(TimeSpan.FromTicks(12_345_678));

        Assert.Equal("2026-11-25T08:00:01.234567Z", (await ledger.Do(Support.Ledger.Locate())).At);
    }

    [Fact]
    public async Task Asks_that_queued_during_a_commit_are_written_together_and_in_order()
    {
        using var ledger = await new Support.Ledger().Begin();
        using var gate = new Support.Gate(ledger.Writer);
        await gate.Entered;

        var asks = Enumerable.Range(0, 1000).Select(i => ledger.Writer.Append(Support.Ledger.Locate(0.08 + i * 1e-6))).ToArray();
        Assert.All(asks, t => Assert.False(t.IsCompleted));
        gate.Open();
        var outcomes = await Support.Ledger.Soon(Task.WhenAll(asks));

        Assert.Equal(Enumerable.Range(3, 1000).Select(i => (long)i), outcomes.Select(o => o.Entry!.Serial));
        Assert.Equal(Enumerable.Range(0, 1000).Select(i => 0.08 + i * 1e-6), outcomes.Select(o => ((AnswerBody)o.Entry!).Diameter));
        Assert.Equal(1002, ledger.Verify().Entries);
        Assert.True(ledger.Verify().Whole);
    }

    [Fact]
    public async Task Asks_from_many_threads_all_get_their_own_entry()
    {
        using var ledger = await new Support.Ledger().Begin();

        var outcomes = await Support.Ledger.Soon(Task.WhenAll(Enumerable.Range(0, 32).Select(i => Task.Run(async () =>
        {
            var got = new List<(string? Tag, EntryBody Entry)>();
            for (var n = 0; n < 25; n++)
            {
                var tag = $"{i}.{n}";
                got.Add((tag, (await ledger.Writer.Append(new LocateAsk(new("bench", null, null, tag), "bed") { DiameterMetres = 0.09 })).Entry!));
            }

            return got;
        }))));

        var all = outcomes.SelectMany(o => o).ToList();
        Assert.All(all, a => Assert.Equal(a.Tag, a.Entry.Tag));
        Assert.Equal(Enumerable.Range(3, 800).Select(i => (long)i), all.Select(a => a.Entry.Serial).Order());
        Assert.All(outcomes, o => Assert.Equal(o.Select(a => a.Entry.Serial).Order(), o.Select(a => a.Entry.Serial)));
        Assert.True(ledger.Verify().Whole);
    }

    [Fact]
    public async Task Reopening_keeps_the_revision_in_force_the_measurement_and_what_was_done()
    {
        using var ledger = await new Support.Ledger().Begin();
        var measured = await ledger.Do(Support.Ledger.Measured(0.09, lot: "A1"));
        var answer = await ledger.Do<AnswerBody>(Support.Ledger.Locate(null));
        Assert.True(answer.First);
        await ledger.CarryOut(answer);

        await ledger.Again();

        Assert.Equal(Kinds.ServiceStopped, ledger.Writer.LastKind);
        var after = await ledger.Do<AnswerBody>(Support.Ledger.Locate(null));
        Assert.Equal((measured.Serial, "A1", false, 1), (after.Measurement, after.Lot, after.First, after.Revision));
        Assert.Single(ledger.Rows(), r => r.Kind == Kinds.RevisionAdopted);
        Assert.True(ledger.Verify().Whole);
    }

    [Fact]
    public async Task Reopening_keeps_a_measurement_void()
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do(Support.Ledger.Measured(0.09));
        await ledger.Do<RefusalBody>(Support.Ledger.Measured(0.001));
        await ledger.Again();
        Assert.Equal("measurement-missing", (await ledger.Do<RefusalBody>(Support.Ledger.Locate(null))).Reason);

        await ledger.Do(Support.Ledger.Measured(0.09));
        await ledger.Do(new EmptiedAsk(new("gauge", null, null), "bed"));
        await ledger.Again();
        Assert.Equal("measurement-missing", (await ledger.Do<RefusalBody>(Support.Ledger.Locate(null))).Reason);
    }

    [Fact]
    public async Task An_adoption_by_a_client_without_permission_leaves_the_folder_as_it_was_read()
    {
        using var ledger = await new Support.Ledger().Begin();
        var denied = Refusal.Of(Reason.NotPermitted, "adopt needs the role calibrate");

        await ledger.Do<RefusalBody>(new AdoptAsk(new("robot", null, null), "bed", 2)
        {
            By = "robot", Why = "new", Denied = denied, Folder = new("bed", [Support.Ledger.Revision(1), Support.Ledger.Revision(2)], []),
        });

        Assert.Empty(ledger.Writer.Situation.Find("bed")!.Waiting);
    }

    [Fact]
    public async Task An_adoption_takes_effect_from_the_next_ask_on_and_across_reopening()
    {
        using var ledger = await new Support.Ledger().Begin();
        ledger.Fixture = new("bed", [Support.Ledger.Revision(1), Support.Ledger.Revision(2)], []);
        await ledger.Do<RevisionAdoptedBody>(new AdoptAsk(new("bench", null, null), "bed", 2) { By = "setter", Why = "new", Folder = ledger.Fixture });

        Assert.Equal(2, (await ledger.Do(Support.Ledger.Locate())).Revision);
        await ledger.Again();
        Assert.Equal(2, (await ledger.Do(Support.Ledger.Locate())).Revision);
    }

    [Fact]
    public async Task A_failed_decision_is_reported_and_the_other_asks_continue()
    {
        using var ledger = await new Support.Ledger().Begin();
        var told = new TaskCompletionSource<Exception>();
        ledger.Writer.DecisionFailed += e => told.TrySetResult(e);

        var failed = await Support.Ledger.Soon(ledger.Writer.Append(_ => throw new InvalidOperationException("a bug")));

        Assert.Equal(Reason.InternalFailure, failed.Refusal!.Reason);
        Assert.Equal("a bug", (await Support.Ledger.Soon(told.Task)).Message);
        Assert.Equal(3, (await ledger.Do(Support.Ledger.Locate())).Serial);
        Assert.True(ledger.Verify().Whole);
    }

    [Fact]
    public async Task A_full_queue_refuses_without_an_entry_and_loses_nothing()
    {
        using var ledger = await new Support.Ledger().Begin();
        using var gate = new Support.Gate(ledger.Writer);
        await gate.Entered;
        var waiting = Enumerable.Range(0, AskLimits.All).Select(i => ledger.Writer.Append(Support.Ledger.Locate(client: $"bench-{i % 4}"))).ToArray();

        Assert.Equal(Reason.TooBusy, await ledger.Refused(Support.Ledger.Locate()));

        gate.Open();
        Assert.All(await Support.Ledger.Soon(Task.WhenAll(waiting)), o => Assert.NotNull(o.Entry));
        Assert.Equal(AskLimits.All + 2, ledger.Verify().Entries);
    }

    [Fact]
    public async Task A_stop_writes_what_waits_and_refuses_what_comes_after()
    {
        using var ledger = await new Support.Ledger().Begin();
        using var gate = new Support.Gate(ledger.Writer);
        await gate.Entered;
        var waiting = Enumerable.Range(0, 100).Select(_ => ledger.Writer.Append(Support.Ledger.Locate())).ToArray();

        var stop = ledger.Writer.Stop();
        Assert.Equal(Reason.ShuttingDown, await ledger.Refused(Support.Ledger.Locate()));
        gate.Open();

        Assert.Null(await Support.Ledger.Soon(stop));
        Assert.All(await Support.Ledger.Soon(Task.WhenAll(waiting)), o => Assert.NotNull(o.Entry));
        Assert.False(File.Exists(ledger.File + "-wal"));
        Assert.Equal(102, ledger.Verify().Entries);
    }

    private static (string, string, string?, int?, string?, string?) Columns(Stockseat.Ledger.Store.EntryRow r) =>
        (r.Kind, r.At, r.Fixture, r.Revision, r.Client, r.Tag);
}
