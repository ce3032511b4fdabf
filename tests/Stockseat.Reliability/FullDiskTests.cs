using Grpc.Health.V1;
using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;
using Stockseat.Tests.Support;

namespace Stockseat.Reliability;

/// <summary>A disk without a free byte: at a start, and while the service answers. The service refuses, says so, and answers again by itself.</summary>
public class FullDiskTests
{
    private const string Ask = "locate fixture=pinbed-1 diameter=92.40mm tag=1";

    [Theory]
    [InlineData("tmpfs", false, false)]
    [InlineData("tmpfs", true, false)]
    [InlineData("tmpfs", true, true)]
    [InlineData("ext4", false, false)]
    [InlineData("ext4", true, false)]
    [InlineData("ext4", true, true)]
    public async Task Start_OnAFullDisk_RefusesUntilThereIsRoom(string kind, bool existing, bool killed)
    {
        using var cell = new Cell();
        await using var disk = await SmallDisk.Make(kind, Path.Combine(cell.Folder, "disk.img"), cell.Data);
        var before = existing ? await Before(cell, killed) : 0;

        disk.Fill();
        var data = existing ? cell.Data : Path.Combine(cell.Data, "new"); // There may be no room for a folder either.
        await using var service = Launched.Begin(cell, data);
        Assert.True(await service.Waits(), $"the service does not wait for room: {(service.HasEnded ? await service.Log() : "it is ready")}");
        using var line = await service.Connect();
        await Refuses(service, line);
        Assert.Equal("ledger-unavailable", (await line.Ask("status fixture=nowhere"))["reason"]);
        Assert.Contains("<p>The ledger can&#x27;t be written: no fixture answers", await service.Board(), StringComparison.Ordinal);

        disk.Empty();
        Assert.True(await service.Ready(), "the service did not become ready");
        var answer = await line.Ask(Ask);

        Assert.Equal("ok", answer.Verdict);
        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, await Health(service));
        Assert.Equal(0, await service.Terminate());
        (await Built.Ordinary.Run("ledger", "verify", "--data", data)).Exits(0);
        var rows = LedgerRows.Read(data);
        string[] first = killed ? ["unclean-stop", "service-started"] : ["service-started"];
        Assert.Equal(first, rows.Skip(before).Take(first.Length).Select(r => r.Kind));
        Assert.Equal("answer", Assert.Single(rows, r => r.Serial == answer.Serial).Kind);
        Assert.Single(rows, r => r.Serial > before && r.Kind == "answer");
        Assert.Equal("service-stopped", rows[^1].Kind);
    }

    [Fact]
    public async Task Start_OnAFullDisk_IsReadyForTheSupervisorAndStops()
    {
        using var cell = new Cell();
        await using var disk = await SmallDisk.Make("tmpfs", "", cell.Data);
        disk.Fill();
        using var supervisor = new NotifySocket(Path.Combine(cell.Folder, "notify"));
        await using var service = Launched.Begin(cell, null, null, ("NOTIFY_SOCKET", supervisor.Path));

        Assert.Equal("READY=1", await supervisor.Next());
        Assert.StartsWith("STATUS=Every ask is refused", await supervisor.Next(), StringComparison.Ordinal);
        Assert.Equal(2, await service.Terminate()); // the stop is not in a ledger
        Assert.False(service.SaidReady);
    }

    [Theory]
    [InlineData("tmpfs")]
    [InlineData("ext4")]
    public async Task FullDisk_WhileTheServiceAnswers_MakesItRefuseUntilThereIsRoom(string kind)
    {
        using var cell = new Cell();
        await using var disk = await SmallDisk.Make(kind, Path.Combine(cell.Folder, "disk.img"), cell.Data);
        await using var service = await Launched.Start(cell);
        using var line = await service.Connect();
        var history = new History();

        for (var i = 0; i < 2; i++)
        {
            disk.Fill();
            var n = 0;
            await Deadline.Until(
                async () =>
                {
                    var tag = $"full-{i}-{n++}"; // The log may still have room for some answers.
                    var reply = await line.Ask(Load.Line(new(n), tag));
                    history.Add("full", tag, reply);
                    return reply.Verdict == "refused" && reply["reason"] == "ledger-unavailable";
                },
                "a refusal on the full disk");

            // The recovery empties the log, and that room may be enough for a few more answers.
            await Deadline.Until(
                async () =>
                {
                    disk.Fill();
                    return await IsRefusing(service, line);
                },
                "refusals that last");
            var board = await service.Board();
            Assert.Contains("None of 3 fixtures answers", board, StringComparison.Ordinal);
            Assert.Contains("ledger unavailable", board, StringComparison.Ordinal);
            disk.Empty();
            await Deadline.Until(async () => (await line.Ask(Ask)).Verdict == "ok", "an answer after there was room");
            Assert.DoesNotContain("ledger unavailable", await service.Board(), StringComparison.Ordinal);
        }

        Assert.Equal(0, await service.Terminate());
        (await Built.Ordinary.Run("ledger", "verify", "--data", cell.Data)).Exits(0);
        History.Agrees(history.Snapshot(), LedgerRows.Read(cell.Data));
    }

    /// <summary>A service that answered once.</summary>
    /// <returns>How many entries it left.</returns>
    private static async Task<int> Before(Cell cell, bool killed)
    {
        await using var service = await Launched.Start(cell);
        using (var line = await service.Connect())
        {
            Assert.Equal("ok", (await line.Ask(Ask)).Verdict);
        }

        if (killed)
        {
            await service.Kill();
        }
        else
        {
            Assert.Equal(0, await service.Terminate());
        }

        return (await Built.Ordinary.Run("ledger", "list", "--json", "--data", cell.Data)).Exits(0).Lines.Count; // The service leaves no other files there.
    }

    private static async Task Refuses(Launched service, LineSocket line)
    {
        Assert.Equal("ledger-unavailable", (await line.Ask(Ask))["reason"]);
        Assert.Equal(HealthCheckResponse.Types.ServingStatus.NotServing, await Health(service));
        Assert.Equal("ledger-unavailable", (await line.Ask(Ask))["reason"]);
    }

    private static async Task<bool> IsRefusing(Launched service, LineSocket line) =>
        (await line.Ask(Ask)).Verdict == "refused"
        && await Health(service) == HealthCheckResponse.Types.ServingStatus.NotServing
        && (await line.Ask(Ask)).Verdict == "refused";

    private static async Task<HealthCheckResponse.Types.ServingStatus> Health(Launched service)
    {
        using var channel = LimitedChannel.For(service.Grpc);
        return (await new Health.HealthClient(channel).CheckAsync(new())).Status;
    }
}
