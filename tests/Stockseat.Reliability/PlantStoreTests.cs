using System.Globalization;
using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;
using Stockseat.Tests.Support;
using Stockseat.Tests.Support.Plants;

namespace Stockseat.Reliability;

/// <summary>
/// The rows of the plant store are those of the ledger, once each, in order and hash by hash (P6), whatever happens to the server and to the link, and answers
/// go on meanwhile.
/// </summary>
public sealed class PlantStoreTests
{
    [Fact]
    public async Task Server_killed_in_mid_COPY_gets_every_row_once()
    {
        var killed = 0;
        await Run(Extent.Times(3, 30), () => killed, (store, proxy, kills) => proxy.Sent = async (message, pass) =>
        {
            await pass();
            if (message.IsCopyData && killed < kills)
            {
                killed++;
                await store.Server.Kill();
                await store.Server.Start(default);
                throw PlantProxy.Cut();
            }
        });
    }

    [Fact]
    public async Task Server_killed_in_mid_COMMIT_gets_every_row_once()
    {
        var (killed, random, held) = (0, Extent.Random(), false);
        await Run(Extent.Times(5, 50), () => killed, (store, proxy, kills) =>
        {
            proxy.Sent = async (message, pass) =>
            {
                held = message.AsksForCommit && killed < kills;
                await pass();
                if (held)
                {
                    await Task.Delay(random.Next(4)); // Before it is done, while it is, and after it.
                    await store.Server.Kill();
                    await store.Server.Start(default);
                    killed++;
                    throw PlantProxy.Cut();
                }
            };

            // The client never hears whether it was done.
            proxy.Replied = (message, pass) => held ? Task.Delay(Timeout.Infinite) : pass();
        });
    }

    [Fact]
    public async Task Server_restarted_while_rows_come_gets_every_row_once()
    {
        var restarted = 0;
        await Run(Extent.Times(3, 30), () => restarted, (store, proxy, times) => proxy.Sent = async (message, pass) =>
        {
            await pass();
            if (message.IsCopyData && restarted < times)
            {
                await store.Server.Stop();
                await store.Server.Start(default);
                restarted++;
            }
        });
    }

    [Fact]
    public async Task Reply_lost_after_COMMIT_stores_nothing_twice()
    {
        var lost = 0;
        await Run(Extent.Times(5, 50), () => lost, (_, proxy, times) => proxy.Replied = (message, pass) =>
        {
            if (message.Done != "COMMIT" || lost >= times)
            {
                return pass();
            }

            lost++;
            throw PlantProxy.Cut();
        });
    }

    [Fact]
    public async Task COMMIT_that_arrives_after_the_rows_were_sent_again_stores_nothing_twice()
    {
        var (late, again, sent) = (0, 0, 0);
        await Run(Extent.Times(3, 30), () => Math.Min(late, again), (store, proxy, times) =>
        {
            proxy.Sent = async (message, pass) =>
            {
                if (message.AsksForCommit && late < times && late == again)
                {
                    late++;
                    message.Abandon(); // The client connects again and sends the rows again, and the first COMMIT is still on its way.
                    await Deadline.Until(
                        async () => (await store.Sql("SELECT count(*) FROM pg_locks WHERE NOT granted"))[0] != "0", "the rows that were sent again");
                }

                await pass();
            };
            proxy.Replied = (message, pass) =>
            {
                // How many rows were sent, and how many of them were new.
                sent = message.Done is ['C', 'O', 'P', 'Y', ' ', .. var copied] ? int.Parse(copied, CultureInfo.InvariantCulture) : sent;
                again += message.Done is ['I', 'N', 'S', 'E', 'R', 'T', ' ', '0', ' ', .. var stored]
                    && int.Parse(stored, CultureInfo.InvariantCulture) < sent ? 1 : 0;
                return pass();
            };
        });
    }

    [Fact]
    public async Task Delayed_and_lossy_link_stores_every_row_once()
    {
        var (cuts, random) = (0, Extent.Random());
        await Run(Extent.Times(5, 15), () => cuts, (_, proxy, times) => proxy.Sent = proxy.Replied = async (_, pass) =>
        {
            int delay, chance;
            lock (random)
            {
                (delay, chance) = (random.Next(5), random.Next(100)); // Seldom enough for some rounds to end well, or the breaker makes pauses.
            }

            await Task.Delay(delay);
            if (chance == 0 && cuts < times)
            {
                Interlocked.Increment(ref cuts);
                throw PlantProxy.Cut();
            }

            await pass();
        });
    }

    [Fact]
    public async Task Standby_that_takes_over_without_the_newest_rows_is_filled_again()
    {
        Needs.Linux();
        await using var primary = await PlantStore.Start(Built.Ordinary);
        await using var standby = await primary.Standby();
        using var cell = new Cell();
        primary.Take(cell, $"Host={primary.Server.Folder},{standby.Server.Folder};Database=postgres;Username=postgres");
        await using var service = await Launched.Start(cell);
        using var socket = await service.Connect();
        await Ask(50);
        await primary.Has(LedgerRows.Read(cell.Data).Count);
        await Deadline.Until(async () => await standby.Newest() == await primary.Newest(), "the standby follows");
        await standby.Sql("ALTER SYSTEM SET primary_conninfo = ''");
        await standby.Sql("SELECT pg_reload_conf()");
        await Deadline.Until(async () => (await standby.Sql("SELECT count(*) FROM pg_stat_wal_receiver"))[0] == "0", "the standby is cut off");
        await Ask(50);
        var stored = LedgerRows.Read(cell.Data).Count;
        await primary.Has(stored);

        await primary.Server.Kill();
        await standby.Sql("SELECT pg_promote()");
        var kept = await standby.Newest();
        await Ask(20);
        await standby.Has(LedgerRows.Read(cell.Data).Count);

        Assert.True(kept < stored, $"the standby had {kept} of {stored} rows: it lacked none");
        Extent.Say($"the standby lacked {stored - kept} of {stored} rows");
        Assert.Equal(Expected(cell.Data), await standby.Sql("SELECT serial, encode(hash, 'hex'), body FROM stockseat.entry ORDER BY serial"));
        Assert.Equal(["0"], await standby.Sql("SELECT count(*) FROM stockseat.fork"));
        Assert.Equal(0, await service.Terminate());

        async Task Ask(int count)
        {
            for (var i = 0; i < count; i++)
            {
                Assert.Equal("ok", (await socket.Ask($"locate fixture=pinbed-1 diameter=92.4mm tag=t{i}")).Verdict);
            }
        }
    }

    /// <summary>Runs a service whose link to the store is disturbed under load, until that happened often enough; then compares row by row.</summary>
    private static async Task Run(int times, Func<int> happened, Action<PlantStore, PlantProxy, int> disturb)
    {
        Needs.Linux();
        await using var store = await PlantStore.Start(Built.Ordinary);
        await using var proxy = new PlantProxy(store.Server.Socket);
        using var cell = new Cell();
        store.Take(cell, string.Create(CultureInfo.InvariantCulture, $"Host=127.0.0.1;Port={proxy.Port};Database=postgres;Username=postgres"));
        disturb(store, proxy, times);
        var history = new History();
        await using (var service = await Launched.Start(cell))
        {
            var end = Deadline.Until(() => happened() >= times, "the disturbances", limit: TimeSpan.FromMinutes(5));
            using var socket = await service.Connect();
            var random = new Random(1);
            for (var i = 0; !end.IsCompleted; i++)
            {
                var tag = $"t{i}";
                history.Add("a", tag, await socket.Ask(Load.Line(random, tag)));
                await Task.Delay(2);
            }

            await end;
            (proxy.Sent, proxy.Replied) = (null, null);
            var last = LedgerRows.Read(cell.Data).Count;
            await store.Has(last);
            Assert.Equal(0, await service.Terminate());
        }

        await using (var again = await Launched.Start(cell))
        {
            await store.Has(LedgerRows.Read(cell.Data).Count); // With the stop and the start.
            await again.Kill();
        }

        var rows = LedgerRows.Read(cell.Data);
        History.Agrees(history.Snapshot(), rows);
        var stored = await store.Sql("SELECT serial, encode(hash, 'hex'), body FROM stockseat.entry ORDER BY serial");
        Extent.Say($"{happened()} disturbances, {proxy.Connections} connections, {rows.Count} entries");
        Assert.Equal(Expected(cell.Data).Take(stored.Count), stored);
        Assert.InRange(stored.Count, rows.Count - 1, rows.Count);
        Assert.True(happened() >= times, "the disturbances did not happen");
    }

    private static List<string> Expected(string data)
    {
        using var connection = new Microsoft.Data.Sqlite.SqliteConnection($"Data Source={Path.Combine(data, "ledger.db")};Mode=ReadOnly;Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT serial || ',' || lower(hex(hash)) || ',' || body FROM entry ORDER BY serial";
        using var reader = command.ExecuteReader();
        var rows = new List<string>();
        while (reader.Read())
        {
            rows.Add(reader.GetString(0));
        }

        return rows;
    }
}
