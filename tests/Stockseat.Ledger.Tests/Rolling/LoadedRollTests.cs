using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Support;

namespace Stockseat.Ledger.Tests.Rolling;

/// <summary>What stands in the nests is carried over, with all that came since somebody said so.</summary>
public sealed class LoadedRollTests
{
    private const string Row = """, "layout": [{ "direction": "u", "count": 4, "pitch": "125 mm" }]""";

    private static readonly Caller Who = new("bench", "demo", null);

    [Fact]
    public async Task A_load_is_the_same_after_rolls_snapshots_and_a_kill()
    {
        using var ledger = new Support.Ledger(new SteppedTime()) { SnapshotEvery = 3, Fixture = new("bed", [Support.Ledger.Revision(1, Row)], []) };
        await ledger.Begin();
        var open = await Load(ledger);
        var before = ledger.Writer.Situation.Text();
        var load = ledger.Writer.Situation.Find("bed")!.Load!;
        Assert.Equal((open.Serial, 2, 1), (load.Open!.Answer, load.Measured.Count, load.Moves.Count));

        await ledger.Kill();
        await ledger.Begin();
        Assert.Equal(before, ledger.Writer.Situation.Text());
        await ledger.Roll();
        await ledger.Roll("ledger-3");
        await ledger.Kill();
        Directory.Delete(Path.Combine(ledger.Folder, ClosedLedgers.Folder), recursive: true);
        await ledger.Begin();

        Assert.Equal(before, ledger.Writer.Situation.Text());
        Assert.Equal("move-unfinished", (await ledger.Do<RefusalBody>(Next())).Reason);
        await ledger.Do<DroppedBody>(new DroppedAsk(Who, open.Serial));
        Assert.Equal((0.0924, open.Nest[0], open.Nest[1]), At(await ledger.Do<AnswerBody>(Next())));
    }

    /// <summary>One move of it was carried out, one was dropped, and one is open; two nests were measured by themselves, and then the whole fixture.</summary>
    private static async Task<AnswerBody> Load(Support.Ledger ledger)
    {
        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.09));
        await ledger.Do<LoadedBody>(new LoadedAsk(Who, "bed") { First = 3 });
        await ledger.CarryOut(await ledger.Do<AnswerBody>(Next()));
        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.0924) with { Nest = [1, 0] });
        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.0931) with { Nest = [2, 0] });
        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.091));
        await ledger.Do<DroppedBody>(new DroppedAsk(Who, (await ledger.Do<AnswerBody>(Next())).Serial));
        var open = await ledger.Do<AnswerBody>(Next());
        for (var i = 0; i < 7; i++)
        {
            await ledger.Do<AnswerBody>(Support.Ledger.Locate());
        }

        return open;
    }

    private static (double Diameter, int Column, int Row) At(AnswerBody answer) => (answer.Diameter, answer.Nest[0], answer.Nest[1]);

    private static LocateAsk Next() => Support.Ledger.Locate(null) with { IsNext = true };
}
