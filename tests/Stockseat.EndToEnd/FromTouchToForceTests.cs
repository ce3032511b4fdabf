using System.Collections.Concurrent;
using System.Globalization;
using System.Text.Json;
using Stockseat.EndToEnd.Support;
using Stockseat.Tests.Support;

namespace Stockseat.EndToEnd;

/// <summary>The whole path of a revision, as a setter takes it beside a cell that keeps working.</summary>
public abstract class FromTouchToForceTests(Build build) : OnBothBuilds(build)
{
    private const string Ask = "locate fixture=veerack-2 diameter=75.00mm";

    /// <summary>How many answers there have to be from each revision.</summary>
    private const int Enough = 50;

    public sealed class Ordinary() : FromTouchToForceTests(Build.Ordinary);

    public sealed class Native() : FromTouchToForceTests(Build.Native);

    [Fact]
    public async Task A_rack_is_calibrated_adopted_drawn_and_tabulated_while_a_client_asks_and_is_in_force_after_a_restart()
    {
        using var cell = new Cell();
        string digest;
        var replies = new ConcurrentQueue<LineReply>();
        await using (var service = await Program.Serve(cell))
        {
            using var stop = new CancellationTokenSource();
            var client = AskOnAndOn(service, replies, stop.Token);
            var touched = Path.Combine(cell.Folder, "config", "touched-veerack-2.csv");
            (await Program.Run("fixture", "calibrate", "veerack-2", touched, "--by", "day setter", "--config", cell.Config)).Exits(0);
            (await Program.Run("fixture", "check", "veerack-2", "--config", cell.Config)).Exits(0);
            await Deadline.Until(
                async () => (await Veerack(service)).GetProperty("waiting").EnumerateArray().Any(w => w.GetInt32() == 3),
                "the waiting of revision 3 for its adoption");
            await Deadline.Until(() => client.IsCompleted || replies.Count > Enough, "enough answers before the adoption");

            var adopted = (await service.Ask("fixture", "adopt", "veerack-2", "3", "--by", "day setter", "--why", "rack moved", "--json")).Exits(0).Object;
            digest = adopted.GetProperty("digest").GetString()!;
            await Deadline.Until(() => client.IsCompleted || replies.Count(r => r["revision"] == "3") > Enough, "enough answers after the adoption");
            stop.Cancel();
            Assert.True(await client.Within("the last reply") > 2 * Enough);

            (await Program.Run("fixture", "draw", "veerack-2", "--config", cell.Config, "--output", Path.Combine(cell.Folder, "rack.svg"))).Exits(0);
            var card = Path.Combine(cell.Folder, "card.html");
            (await service.Ask("fixture", "table", "veerack-2", "--card", card, "--config", cell.Config)).Exits(0);
            Assert.Contains(digest, await File.ReadAllTextAsync(card, TestContext.Current.CancellationToken), StringComparison.Ordinal);
            EachFromOneRevision(cell, replies, adopted.GetProperty("serial").GetInt64());
            Assert.Equal(0, (await service.Terminate()).ExitCode);
        }

        await using var again = await Program.Serve(cell);
        var state = await Veerack(again);
        Assert.Equal((3, digest), (state.GetProperty("revision").GetInt32(), state.GetProperty("digest").GetString()));
        using var socket = await again.Connect();
        var served = await socket.Ask(Ask);
        foreach (var name in (string[])["revision", "x", "y", "z", "bx", "by", "bz"])
        {
            Assert.Equal(replies.Last()[name], served[name]);
        }

        (await again.Ask("ledger", "verify")).Exits(0);
    }

    /// <summary>Asks one after another, as fast as they are answered; none is refused.</summary>
    private static async Task<int> AskOnAndOn(Service service, ConcurrentQueue<LineReply> replies, CancellationToken stop)
    {
        await Task.Yield();
        using var socket = await service.Connect();
        while (!stop.IsCancellationRequested)
        {
            var reply = await socket.Ask(Ask);
            Assert.Equal("ok", reply.Verdict);
            replies.Enqueue(reply);
        }

        return replies.Count;
    }

    /// <summary>What the ledger says: every reply is an entry with its revision, and the revision changes once, at the adoption.</summary>
    private static void EachFromOneRevision(Cell cell, IEnumerable<LineReply> replies, long adoption)
    {
        var answers = LedgerRows.Read(cell.Data).Where(r => r.Kind == "answer" && r.Body.GetProperty("fixture").GetString() == "veerack-2")
            .ToDictionary(r => r.Serial);
        foreach (var reply in replies)
        {
            var revision = answers[reply.Serial].Body.GetProperty("revision").GetInt32();
            Assert.Equal(revision.ToString(CultureInfo.InvariantCulture), reply["revision"]);
            Assert.Equal(reply.Serial > adoption ? 3 : 2, revision);
        }

        Assert.True(replies.Count(r => r.Serial < adoption) > Enough, "too few answers before the adoption");
        Assert.True(replies.Count(r => r.Serial > adoption) > Enough, "too few answers after it");
    }

    private static async Task<JsonElement> Veerack(Service service) =>
        (await service.Ask("fixture", "list", "--json")).Exits(0).Lines.Single(l => l.GetProperty("fixture").GetString() == "veerack-2");
}
