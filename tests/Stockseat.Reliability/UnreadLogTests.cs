using System.Text;
using System.Text.Json;
using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;
using Stockseat.Tests.Support;

namespace Stockseat.Reliability;

/// <summary>A log that nobody reads: stderr is a full pipe from the start.</summary>
public class UnreadLogTests
{
    private const int Refusals = 3000;
    private const string Ask = "locate fixture=pinbed-1 diameter=92.40mm tag=1";

    [Fact]
    public async Task UnreadLog_ThroughRefusalsAndAnOutage_TheServiceAnswersAndStops()
    {
        using var cell = new Cell();
        await using var disk = await SmallDisk.Make("tmpfs", "", cell.Data);
        await using var service = await Launched.StartUnread(cell);
        using var line = await service.Connect();

        for (var i = 0; i < Refusals; i++)
        {
            Assert.Equal("fixture-unknown", (await line.Ask($"locate fixture=nowhere diameter=92.40mm tag={i}"))["reason"]);
        }

        disk.Fill();
        await Deadline.Until(
            async () => (await line.Ask(Ask)).Text.Contains("reason=ledger-unavailable", StringComparison.Ordinal), "a refusal on the full disk");
        disk.Empty();
        await Deadline.Until(async () => (await line.Ask(Ask)).Verdict == "ok", "an answer after there was room");

        Assert.Equal(0, await service.Terminate());
        Assert.Equal("service-stopped", LedgerRows.Read(cell.Data)[^1].Kind);
    }

    [Fact]
    public async Task UnreadLog_LinesBeyondTheBuffer_AreDroppedCounted_AndReportedWhenSomebodyReads()
    {
        Needs.Linux();
        using var cell = new Cell();
        for (var i = 0; i < 100; i++)
        {
            var faulty = new StringBuilder("{").AppendJoin(',', Enumerable.Range(0, 40).Select(k => $"\"unknown{k}\": 1")).Append('}');
            cell.Write($"config/fixtures/broken-{i}/r0001.json", faulty.ToString());
        }

        await using var service = await Launched.StartUnread(cell);
        using var line = await service.Connect();
        LineReply? status = null;
        await Deadline.Until(
            async () => (status = await line.Ask("status")).Text.Contains(" logdropped=", StringComparison.Ordinal), "a line of the log that was dropped");
        Assert.Contains("log lines dropped since the start: ", (await service.Ask("fixture", "list")).Exits(0).Out, StringComparison.Ordinal);

        service.Hear();
        Assert.Equal(0, await service.Terminate());
        var told = (await service.Log()).Split('\n').Where(l => l.Contains("log lines were dropped", StringComparison.Ordinal)).ToList();
        Assert.Equal(status!["logdropped"], JsonDocument.Parse(told[^1]).RootElement.GetProperty("All").GetInt64()
            .ToString(System.Globalization.CultureInfo.InvariantCulture));
    }
}
