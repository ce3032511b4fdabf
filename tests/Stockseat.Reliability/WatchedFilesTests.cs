using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;
using Stockseat.Tests.Support;

namespace Stockseat.Reliability;

/// <summary>The real program with the real clock and disk: revision files come, break and go while clients keep asking.</summary>
public class WatchedFilesTests
{
    [Fact]
    public async Task NewRevision_WrittenInPieces_IsAdoptedUnderLoad_AndEachAnswerIsFromOne()
    {
        Needs.Linux();
        using var cell = new Cell();
        await using var service = await Launched.Start(cell);
        var history = new History();
        var load = Load.Start(service.Line, 6, history, "watch", Extent.Random().Next());
        await load.More(history, 100);

        cell.Publish("pinbed-1", 3, 4, ("\"x\": \"412.30 mm\"", "\"x\": \"413.30 mm\""));
        var path = Path.Combine(cell.Fixtures, "pinbed-1", "r0004.json");
        var whole = await File.ReadAllTextAsync(path, TestContext.Current.CancellationToken);
        await using (var file = new StreamWriter(path))
        {
            file.AutoFlush = true;
            foreach (var piece in whole.Chunk(100))
            {
                await file.WriteAsync(piece);
                await load.More(history, 1);
            }
        }

        await Deadline.Until(async () => (await Shown(service)).GetProperty("waiting").EnumerateArray().Any(n => n.GetInt32() == 4), "the wait of revision 4");
        await load.More(history, 100);
        (await service.Ask("fixture", "adopt", "pinbed-1", "4", "--by", "setter", "--why", "bed moved")).Exits(0);
        await load.More(history, 100);
        await File.WriteAllTextAsync(path, whole[..1000], TestContext.Current.CancellationToken);
        await Deadline.Until(async () => (await Shown(service)).GetProperty("faults").GetArrayLength() > 0, "the report of the broken file");
        await load.More(history, 100);
        Assert.Equal(0, await service.Terminate());
        await load.End();

        var rows = LedgerRows.Read(cell.Data);
        var asked = history.Snapshot();
        History.Agrees(asked, rows);
        var adopted = rows.Single(r => r.Kind == "revision-adopted" && r.Body.GetProperty("revision").GetInt32() == 4).Serial;
        var answers = rows.Where(r => r.Kind == "answer").ToList();
        Assert.All(answers, a => Assert.Equal(a.Serial < adopted ? 3 : 4, a.Body.GetProperty("revision").GetInt32()));

        // Each diameter has its own shift; without it the taught origin's x is left, each rounded to a micrometre.
        Assert.All(asked.Where(a => a.IsOk), a =>
        {
            var (revision, taught) = a.Reply!.Serial < adopted ? ("3", 0.4123) : ("4", 0.4133);
            Assert.Equal(revision, a.Reply["revision"]);
            Assert.Equal(taught, Number(a.Reply["x"]) - Number(a.Reply["bx"]), 1.1e-6);
        });
        Assert.True(answers.Exists(a => a.Serial < adopted) && answers.Exists(a => a.Serial > adopted), "there are not answers from both revisions");
        Assert.All(rows.Where(r => r.Kind == "refusal"), r => Assert.Equal("diameter-above-envelope", r.Body.GetProperty("reason").GetString()));
    }

    private static double Number(string? text) => double.Parse(text!, System.Globalization.CultureInfo.InvariantCulture);

    private static async Task<System.Text.Json.JsonElement> Shown(Launched service) =>
        (await service.Ask("fixture", "list", "--json")).Exits(0).Lines.First(f => f.GetProperty("fixture").GetString() == "pinbed-1");
}
