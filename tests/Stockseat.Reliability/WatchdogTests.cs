using System.Diagnostics;
using Microsoft.Data.Sqlite;
using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;
using Stockseat.Tests.Support;

namespace Stockseat.Reliability;

/// <summary>What the whole service reports to the supervisor's watchdog, and a stop while the ledger's disk hangs.</summary>
public class WatchdogTests
{
    private const string Ask = "locate fixture=pinbed-1 diameter=92.40mm tag=1";
    private const string Alive = "WATCHDOG=1";
    private const int SigTerm = 15;

    /// <summary>There are two pings in each interval.</summary>
    private static readonly TimeSpan Interval = TimeSpan.FromMilliseconds(200);

    [Fact]
    public async Task Watchdog_OfAnIdleServiceOrOneThatCantWrite_IsPinged()
    {
        Needs.Linux();
        using var cell = new Cell();
        using var supervisor = new NotifySocket(Path.Combine(cell.Folder, "notify"));
        await using var service = await Watched(cell, supervisor);
        Assert.Equal(Alive, await Ping(supervisor));
        Assert.Equal(Alive, await Ping(supervisor));

        Sql(cell, "CREATE TRIGGER full BEFORE INSERT ON entry BEGIN SELECT RAISE(ABORT, 'no room'); END");
        using var line = await service.Connect();
        Assert.Equal("ledger-unavailable", (await line.Ask(Ask))["reason"]);
        await Drain(supervisor);

        Assert.Equal(Alive, await Ping(supervisor));
        Assert.Equal(Alive, await Ping(supervisor));
    }

    [Fact]
    public async Task Watchdog_OfAServiceWhoseDiskHangs_IsNotPinged()
    {
        await Needs.Strace();
        using var cell = new Cell();
        using var supervisor = new NotifySocket(Path.Combine(cell.Folder, "notify"));
        await using var service = await Watched(cell, supervisor);
        var hang = TimeSpan.FromSeconds(3);
        using var strace = await HangingDisk(service, hang, "/dev/null");
        using var line = await service.Connect();
        await Drain(supervisor);

        var begun = Stopwatch.GetTimestamp();
        var reply = line.Ask(Ask);
        var (pings, next) = (0, supervisor.Next());
        while (await Task.WhenAny(reply, next) == next)
        {
            Assert.Equal(Alive, await next);
            (pings, next) = (pings + 1, supervisor.Next());
        }

        // The pings from before the writer had the ask, which is later on a busy machine; three times as many were due.
        var hung = Stopwatch.GetElapsedTime(begun);
        Assert.Equal("ok", (await reply).Verdict);
        Assert.True(hung >= hang, $"the disk did not hang: the reply came after {hung.TotalSeconds:0.0} s");
        Assert.InRange(pings, 0, 10);
        Assert.Equal(Alive, await next);
    }

    [Fact]
    public async Task Terminate_WhileTheDiskHangs_EndsInTimeAndSaysThatTheStopIsNotClean()
    {
        await Needs.Strace();
        using var cell = new Cell();
        using var supervisor = new NotifySocket(Path.Combine(cell.Folder, "notify"));
        await using var service = await Watched(cell, supervisor);
        var calls = Path.Combine(cell.Folder, "strace.log");
        using var strace = await HangingDisk(service, TimeSpan.FromMinutes(10), calls);
        using var line = await service.Connect();
        var reply = line.Ask(Ask);

        Assert.Equal(0, Service.Signal(service.Id, SigTerm));

        // The service ends by itself while the call still hangs: strace holds that call, and what then remains of the process.
        await Deadline.Until(() => File.ReadAllText(calls).Contains("exit_group(", StringComparison.Ordinal), "the end of the service");
        strace.Kill();
        Assert.Equal(2, await service.ExitCode());
        Assert.Contains("the last seal could not be written to the ledger", await service.Log(), StringComparison.Ordinal);
        await Assert.ThrowsAnyAsync<Exception>(() => reply);
        (await Built.Ordinary.Run("ledger", "verify", "--data", cell.Data)).Exits(0);
    }

    private static async Task<Launched> Watched(Cell cell, NotifySocket supervisor)
    {
        var service = await Launched.Start(cell, null, null,
            ("NOTIFY_SOCKET", supervisor.Path), ("WATCHDOG_USEC", $"{(long)Interval.TotalMicroseconds}"));

        // A ping may come first: the service is alive before it is ready.
        await Deadline.Until(async () => (await supervisor.Next()).Contains("READY=1", StringComparison.Ordinal), "the message that it is ready");

        return service;
    }

    /// <summary>The next message, which has to be a ping.</summary>
    private static async Task<string> Ping(NotifySocket supervisor)
    {
        var heard = await supervisor.Next();
        return heard == Alive ? heard : throw new InvalidOperationException($"heard '{heard}' in place of a ping");
    }

    private static async Task Drain(NotifySocket supervisor)
    {
        while (!supervisor.IsEmpty)
        {
            await supervisor.Next();
        }
    }

    /// <summary>From now on each sync of the service takes that long. strace ends with the service.</summary>
    private static async Task<Process> HangingDisk(Launched service, TimeSpan hang, string calls)
    {
        var strace = Tool.Start("strace", ["-f", "-o", calls, "-e", "trace=fsync,fdatasync,exit_group",
            "-e", $"inject=fsync,fdatasync:delay_enter={(long)hang.TotalMicroseconds}", "-p", $"{service.Id}"]);
        var said = await strace.StandardError.ReadLineAsync().Within("strace's first line");
        Assert.SkipUnless(said?.Contains(" attached", StringComparison.Ordinal) == true, $"strace can't attach here: {said}");
        return strace;
    }

    private static void Sql(Cell cell, string sql)
    {
        using var connection = new SqliteConnection($"Data Source={Path.Combine(cell.Data, "ledger.db")};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }
}
