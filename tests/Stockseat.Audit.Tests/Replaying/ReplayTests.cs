using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Audit.Replaying;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Rolling;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Tests.Support.Clocks;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Audit.Tests.Replaying;

/// <summary>What was decided comes out the same when it is decided again, whatever happened in between.</summary>
public sealed class ReplayTests
{
    [Fact]
    public async Task A_whole_varied_ledger_comes_out_the_same_with_any_number_of_ranges()
    {
        using var ledger = await Varied.Make();
        using var reader = LedgerReader.Open(ledger.Folder);
        var bodies = reader.Piece(0, reader.Last, int.MaxValue, null).Rows.Select(r => r.ReadBody()!).ToList();
        var reasons = bodies.OfType<RefusalBody>().Select(r => r.Refusal.Reason).ToHashSet();
        Assert.Empty(Enum.GetValues<Reason>().Except(reasons).Except(Varied.Elsewhere));

        var found = ledger.Replay();

        Assert.Empty(found.Differences);
        Assert.Null(found.Unreadable);
        Assert.Equal((1, reader.Last, 0, 0), (found.First, found.Last, found.ExitCode, (int)found.MoreDifferences));
        Assert.Equal(bodies.OfType<AnswerBody>().Count(), found.Answers);
        Assert.Equal(bodies.OfType<RefusalBody>().Count(), found.Refusals);
        Assert.Equal(bodies.Count(Answers.Replaying.Recomputing.Follows) - found.Answers - found.Refusals, found.Others);
        Assert.Equal((found.Answers + found.Refusals + found.Others, 0), (found.Same, found.Within));
    }

    [Fact]
    public async Task Entries_that_depend_on_a_ledger_that_was_moved_away_are_taken_as_recorded()
    {
        using var ledger = await new TestLedger(new SteppedTime()).Begin();
        var answer = await ledger.Do<AnswerBody>(TestLedger.Locate());
        await ledger.Roll();
        await ledger.Do<ConfirmationBody>(TestLedger.Confirm(answer.Serial));
        await ledger.Do<RefusalBody>(TestLedger.Confirm(answer.Serial, by: "9.000000"));
        var closed = Assert.Single(ClosedLedgers.Of(ledger.Folder)).Path;
        File.Move(closed, closed + ".away");
        Assert.Equal("serial-unknown", (await ledger.Do<RefusalBody>(TestLedger.Confirm(answer.Serial))).Reason);

        var away = ledger.Replay();
        File.Move(closed + ".away", closed);
        var back = ledger.Replay();

        Assert.Equal((0, 5L, 3L), (away.ExitCode, away.First, away.Given));
        Assert.Equal((0, 1L, 1L), (back.ExitCode, back.First, back.Given));
    }

    [Fact]
    public async Task A_closed_ledger_that_cant_be_read_ends_the_replay_where_that_ledger_begins()
    {
        using var ledger = await new TestLedger(new SteppedTime()).Begin();
        await ledger.Roll();
        await ledger.Do<AnswerBody>(TestLedger.Locate());
        await File.WriteAllTextAsync(Assert.Single(ClosedLedgers.Of(ledger.Folder)).Path, "no ledger");

        var found = ledger.Replay();

        Assert.Equal((2, 0L), (found.ExitCode, found.First));
        Assert.Contains("among the closed ledgers can't be read", found.Unreadable, StringComparison.Ordinal);
        Assert.Equal(0, Replays.Of(ledger.Folder, new() { From = 4 }).ExitCode);
    }

    [Fact]
    public async Task Entries_added_after_the_replay_began_are_not_replayed_and_it_can_be_stopped()
    {
        using var ledger = await new TestLedger(new SteppedTime()).Begin();
        await ledger.Do<AnswerBody>(TestLedger.Locate());
        var told = new List<(long, long)>();
        var added = false;

        var found = LedgerReplay.Run(
            ledger.Folder,
            new()
            {
                Ranges = 1,
                Piece = 1,
                Progress = (done, all) =>
                {
                    told.Add((done, all));
                    if (!added)
                    {
                        added = true;
                        ledger.Do<AnswerBody>(TestLedger.Locate()).GetAwaiter().GetResult();
                    }
                },
            },
            CancellationToken.None);

        Assert.Equal((3L, 0), (found.Last, found.ExitCode));
        Assert.Equal([(1, 3), (2, 3), (3, 3)], told);
        using var stopped = new CancellationTokenSource();
        await stopped.CancelAsync();
        Assert.ThrowsAny<OperationCanceledException>(() => LedgerReplay.Run(ledger.Folder, new() { Ranges = 2 }, stopped.Token));
    }

    [Fact]
    public void Without_a_ledger_there_is_a_message() => Assert.Contains(
        "there is no ledger.db in",
        Assert.Throws<FileNotFoundException>(() => LedgerReplay.Run(Path.Combine(Path.GetTempPath(), "nothing-here"), new(), CancellationToken.None)).Message,
        StringComparison.Ordinal);

    [Fact]
    public async Task Older_refusals_of_a_known_request_id_are_found_by_their_text()
    {
        using var ledger = await new TestLedger(new SteppedTime()).Begin();
        await ledger.Do<AnswerBody>(TestLedger.Locate(request: "r"));
        await ledger.Do<RefusalBody>(TestLedger.Locate(0.1, request: "r"));
        Assert.Equal(1, ledger.Sql("UPDATE entry SET body = json_remove(body, '$.retryOf') WHERE kind = 'refusal'"));

        var found = ledger.Replay();

        Assert.Equal((0, 1L), (found.ExitCode, found.Given));
    }
}
