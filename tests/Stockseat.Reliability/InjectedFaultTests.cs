using System.Globalization;
using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;
using Stockseat.Tests.Support;

namespace Stockseat.Reliability;

/// <summary>Writes and syncs that fail, at every point of a start and of the first asks: there is never a number without its entry.</summary>
public class InjectedFaultTests
{
    private const int Asks = 25;
    private const string Syncs = "fsync,fdatasync";

    /// <summary>Calls, their fault, whether it applies from the N-th call on or to that call only, and the largest N.</summary>
    public static TheoryData<string, string, bool, int> Faults => new()
    {
        { Syncs, "error=EIO", false, 26 },
        { Syncs, "error=EIO", true, 26 },
        { "pwrite64", "error=EIO", false, 60 },
        { "pwrite64", "error=EIO", true, 60 },
        { "pwrite64", "error=ENOSPC", false, 60 },
        { "pwrite64", "error=ENOSPC", true, 60 },
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public async Task Fault_AtTheNthCall_LeavesNoAnswerWithoutItsEntry(string calls, string fault, bool on, int last)
    {
        await Needs.Strace();
        var random = Extent.Random();
        using var prepared = await Prepared();
        int[] sample = Extent.Long ? [.. Enumerable.Range(1, last)] : [random.Next(1, last / 4), random.Next(last / 4, last + 1)];
        var (runs, injected, started, refused) = (0, 0, 0, 0);
        foreach (var n in sample)
        {
            // In the short form one case has a new ledger, and the other an existing one.
            foreach (var existing in Extent.Long ? [false, true] : new[] { runs % 2 == 1 })
            {
                var told = $"{calls} {fault} {(on ? "from" : "at")} {n}, {(existing ? "an existing" : "a new")} ledger";
                var outcome = await Run(existing ? prepared : null, calls, string.Create(CultureInfo.InvariantCulture, $"{fault}:when={n}{(on ? "+" : "")}"),
                    told, once: !on, random);
                runs++;
                injected += outcome.Injected > 0 ? 1 : 0;
                started += outcome.Started ? 1 : 0;
                refused += outcome.Refused;
                Extent.Say($"{told}: {outcome}");
            }
        }

        Extent.Say($"{injected} of {runs} runs had their fault; {started} started, {refused} asks refused");
        Assert.True(injected * 2 >= runs, $"only {injected} of {runs} runs had their fault: the range is too long");
    }

    /// <summary>A start whose first sync fails is tried again: it must not record the stop of a service that never started.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public async Task StartThatFails_LeavesALedgerForTheNextStart(int n)
    {
        await Needs.Strace();
        using var killed = await Prepared();
        foreach (var before in (Cell?[])[null, killed])
        {
            var outcome = await Run(before, Syncs, $"error=EIO:when={n}", $"sync {n} of a start", once: true, Extent.Random());

            Assert.True(outcome.Injected > 0, "no sync failed");
        }
    }

    [Fact]
    public async Task SlowDisk_DelaysAnswers_AndLosesNone()
    {
        await Needs.Strace();
        var outcome = await Run(null, Syncs, "delay_enter=30000", "a slow disk", once: true, Extent.Random());

        Assert.True(outcome is { Started: true, Refused: 0, ExitCode: 0 }, outcome.ToString());
        Assert.InRange(outcome.Injected, Asks, int.MaxValue);
    }

    private static async Task<Outcome> Run(Cell? prepared, string calls, string fault, string told, bool once, Random random)
    {
        using var cell = new Cell();
        if (prepared is not null)
        {
            Directory.CreateDirectory(cell.Data);
            foreach (var file in Directory.EnumerateFiles(prepared.Data, "ledger.db*"))
            {
                File.Copy(file, Path.Combine(cell.Data, Path.GetFileName(file)));
            }
        }

        var log = Path.Combine(cell.Folder, "strace.log");
        await using var service = Launched.Begin(cell, under: Strace.Inject(log, calls, fault));
        var history = new History();
        var waits = await service.Waits();
        var ready = (!waits || once) && await service.Ready();
        if (ready)
        {
            await AskAll(service, history, random);
            if (once)
            {
                await AskUntilAnswered(service, history);
            }
        }

        if (waits && !ready)
        {
            await AskAll(service, history, random);
            Assert.DoesNotContain(history.Snapshot(), a => a.IsOk);
        }

        var exitCode = ready || waits ? await service.Terminate() : await service.ExitCode();
        var injected = Strace.Injected(await Strace.Read(log, service.Id));
        var asked = history.Snapshot();
        var refusals = asked.Where(a => a.Reply?.Verdict == "refused").ToList();

        // A failure is reported with its case.
        var context = $"{told}: exit code {exitCode}, ready {ready}, {asked.Count} asked, {injected} injected\n{await service.Log()}";
        try
        {
            Assert.All(refusals, r => Assert.Equal("ledger-unavailable", r.Reply!["reason"]));
            Assert.True(ready ? exitCode is 0 or 2 : exitCode == 2, "the service ended with another exit code");
            Assert.True(!once || exitCode != 0 || asked[^1].IsOk, "the service continued but did not answer again");
            Assert.True(injected > 0 || (ready && exitCode == 0 && refusals.Count == 0), "the service failed without an injected fault");
            await Agree(cell, asked, ready || waits, ready, stoppedInOrder: exitCode == 0);
        }
        catch (Exception e)
        {
            throw new InvalidOperationException(context, e);
        }

        return new(injected, ready, refusals.Count, exitCode);
    }

    private static async Task Agree(Cell cell, IReadOnlyList<Asked> asked, bool listened, bool ready, bool stoppedInOrder)
    {
        if (!ready)
        {
            // Nothing was answered, and whatever the start left behind, the next start continues from it.
            Assert.Equal(listened, asked.Count > 0);
            await using var next = await Launched.Start(cell);
            Assert.Equal(0, await next.Terminate());
        }

        (await Built.Ordinary.Run("ledger", "verify", "--data", cell.Data)).Exits(0);
        var rows = LedgerRows.Read(cell.Data);
        History.Agrees(asked, rows);
        RunsAreInOrder(rows);
        Assert.True(!stoppedInOrder || rows[^1].Kind == "service-stopped", "the service reported a clean stop, but the ledger does not");
    }

    /// <summary>Every entry is between a start and its stop, and a missing stop is reported by the next start.</summary>
    private static void RunsAreInOrder(IReadOnlyList<LedgerRow> rows)
    {
        var (running, told) = (false, false);
        foreach (var row in rows)
        {
            var good = row.Kind switch
            {
                "unclean-stop" => running,
                "service-started" => !running || told,
                _ => running,
            };
            Assert.True(good, $"entry {row.Serial}, {row.Kind}, is in an impossible place");
            told = row.Kind == "unclean-stop";
            running = row.Kind != "service-stopped";
        }
    }

    private static async Task AskAll(Launched service, History history, Random random)
    {
        var socket = await service.Connect();
        try
        {
            for (var i = 0; i < Asks && !service.HasEnded; i++)
            {
                var reply = await socket.TryAsk($"locate fixture=pinbed-1 diameter={random.Next(70, 95)}mm tag=asked-{i}");
                history.Add("asked", $"asked-{i}", reply);
                if (reply is null)
                {
                    return; // The service is ending.
                }
            }
        }
        finally
        {
            socket.Dispose();
        }
    }

    /// <summary>The service must recover from a temporary fault, unless it ended because of it.</summary>
    private static async Task AskUntilAnswered(Launched service, History history)
    {
        if (service.HasEnded)
        {
            return;
        }

        using var socket = await service.Connect();
        var i = 0;
        await Deadline.Until(async () =>
        {
            var tag = $"again-{i++}";
            var reply = await socket.TryAsk($"locate fixture=pinbed-1 diameter=80mm tag={tag}");
            history.Add("again", tag, reply);
            return reply is null or { Verdict: "ok" };
        }, "an answer after a fault that passed");
    }

    /// <summary>A ledger with some entries, whose service was killed.</summary>
    private static async Task<Cell> Prepared()
    {
        var cell = new Cell();
        await using var service = await Launched.Start(cell);
        using (var socket = await service.Connect())
        {
            await socket.Ask("locate fixture=pinbed-1 diameter=92.40mm tag=before");
        }

        await service.Kill();
        return cell;
    }

    private sealed record Outcome(int Injected, bool Started, int Refused, int ExitCode);
}
