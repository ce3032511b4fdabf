using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;

namespace Stockseat.Reliability;

public class WriteOrderTests
{
    private static readonly string[] Syncs = ["fsync", "fdatasync"];

    [Fact]
    public async Task Answer_IsSent_OnlyAfterTheSyncOfItsEntryReturned()
    {
        await Needs.Strace();
        using var cell = new Cell();
        var log = Path.Combine(cell.Folder, "strace.log");
        await using var service = await Launched.Start(cell, under: Strace.Trace(log, "pwrite64,write,writev,fsync,fdatasync,sendmsg,sendto"));
        using (var socket = await service.Connect())
        {
            Assert.Equal("ok", (await socket.Ask("locate fixture=pinbed-1 diameter=92.40mm tag=watched")).Verdict);
        }

        Assert.Equal(0, await service.Terminate());
        var calls = Strace.Calls(await Strace.Read(log, service.Id));

        var reply = Assert.Single(calls, c => c.Name is "sendmsg" or "sendto" or "write" or "writev"
            && c.Text.Contains("\"ok tag=watched ", StringComparison.Ordinal));
        var entry = calls.First(c => c.Name is "pwrite64" or "write" && c.Text.Contains("ledger.db-wal>", StringComparison.Ordinal)
            && c.Text.Contains("watched", StringComparison.Ordinal));
        var sync = calls.FirstOrDefault(c => Syncs.Contains(c.Name) && c.Text.Contains("ledger.db-wal>", StringComparison.Ordinal) && c.Begun > entry.Ended);
        Assert.NotNull(sync);
        Assert.Equal("0", sync.Result);
        Assert.True(sync.Ended < reply.Begun, $"the reply was sent before the sync returned:\n{sync.Text}\n{reply.Text}");
        Assert.NotEqual("-1", reply.Result);

        // Nothing of this commit was written after its sync.
        Assert.DoesNotContain(calls, c => c.Begun > sync.Ended && c.Ended < reply.Begun && c.Text.Contains("ledger.db", StringComparison.Ordinal));
    }

    /// <summary>The parser, on strace's output for two threads: a call on two lines, one in between, a failed call and an injected fault.</summary>
    [Fact]
    public void Calls_OfTwoThreads_AreReadFromTheirLines()
    {
        string[] log =
        [
            "7 15:07:43.834578 pwrite64(108</d/ledger.db-wal>, \"a = b) = 3\\n\"..., 12, 0) = 12",
            "7 15:07:43.838554 fsync(108</d/ledger.db-wal> <unfinished ...>",
            "8 15:07:43.838600 sendto(9<socket:[1]>, \"ok tag=1 end\\n\", 13, 0, NULL, 0) = 13",
            "7 15:07:43.840000 <... fsync resumed>) = 0",
            "8 15:07:43.841000 fsync(108</d/ledger.db>) = -1 EIO (Input/output error) (INJECTED)",
            "8 15:07:43.842000 fsync(108</d/ledger.db>) = 0 (DELAYED)",
            "8 15:07:43.843000 --- SIGTERM {si_signo=SIGTERM, si_code=SI_USER, si_pid=1, si_uid=0} ---",
            "7 15:07:43.844000 +++ exited with 0 +++",
        ];

        var calls = Strace.Calls(log);

        Assert.Equal(["pwrite64 12 0-0", "sendto 13 2-2", "fsync 0 1-3", "fsync -1 4-4", "fsync 0 5-5"],
            calls.Select(c => $"{c.Name} {c.Result} {c.Begun}-{c.Ended}"));
        Assert.Equal(2, Strace.Injected(log));
    }
}
