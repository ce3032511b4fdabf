using CsCheck;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Still;
using Stockseat.Ledger.Tests.Rolling;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Tests.Support.Clocks;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Audit.Tests.Replaying;

/// <summary>Whatever is asked, in whatever order, across starts, rolls and clock steps: it comes out the same again.</summary>
public sealed class RandomReplayTests
{
    private static readonly Caller Who = new("bench", "demo", null);

    [Fact]
    public async Task A_replay_leads_to_the_same_decisions_with_any_number_of_ranges()
    {
        var (answers, refusals, others) = (0L, 0L, 0L);
        await Gen.Select(Gen.Int[0, 23], Gen.Double[0, 1]).Array[30, 80].SampleAsync(
            async happenings =>
            {
                var time = new SteppedTime();
                using var ledger = new TestLedger(time) { Fixture = Varied.Folder(Varied.File(1)), SnapshotEvery = happenings.Length % 2 == 0 ? null : 9 };
                await ledger.Begin();
                foreach (var (what, much) in happenings)
                {
                    await Happens(ledger, time, what, much);
                }

                await ledger.Settle(); // A snapshot comes after the answers.
                var found = ledger.Replay();

                Assert.True(found.Differences.Count == 0, string.Join("; ", found.Differences.Select(d => $"{d}: {string.Join(", ", d.Fields)}")));
                Assert.Equal((0, ledger.Writer.Serial), (found.ExitCode, found.Last));
                Interlocked.Add(ref answers, found.Answers);
                Interlocked.Add(ref refusals, found.Refusals);
                Interlocked.Add(ref others, found.Others);
            },
            iter: 16);

        Assert.True(answers > 40 && refusals > 40 && others > 100, $"{answers} answers, {refusals} refusals, {others} others");
    }

    internal static async Task Happens(TestLedger ledger, SteppedTime time, int what, double much)
    {
        var diameter = 0.08 + (0.02 * much);
        switch (what)
        {
            case 0: await ledger.Do(TestLedger.Measured(diameter, lot: much > 0.9 ? "A1" : much > 0.8 ? "A2" : null)); break;
            case 1: await ledger.Do(
                TestLedger.Measured(diameter) with
                {
                    ReadingsMetres = [diameter, diameter + 0.00001], Terms = new(null, much * 0.00002, TimeSpan.FromSeconds(60 * much)),
                }); break;
            case 2 or 3 or 4: await ledger.Do(TestLedger.Locate(null)); break;
            case 5 or 6: await ledger.Do(TestLedger.Locate(diameter) with { Column = (int)(much * 4), IsTrial = much > 0.9 }); break;
            case 7: await ledger.Do(TestLedger.Locate(diameter) with { Purpose = Purpose.Place }); break;
            case 9 or 10: await UsesAnAnswer(ledger, much); break;
            case 8: await ledger.Do(TestLedger.Confirm(Math.Max(1, ledger.Writer.Serial - (long)(4 * much)))); break;
            case 11: await ledger.Do(new EmptiedAsk(Who, "bed")); break;
            case 12 when much < 0.4: await ledger.Do(new HoldAsk(Who, "bed") { By = much < 0.2 ? "a" : "b", Why = "w" }); break;
            case 12 or 13 or 14: await ledger.Do(new ReleaseAsk(Who, "bed") { By = "a", Why = "w", Of = much < 0.5 ? "a" : "b" }); break;
            case 15: await ledger.Do(
                new RecheckAsk(Who, "bed") { By = "a", MasterMetres = 0.08, FoundMetres = new(0, 0.0008 * much, 0), RefuseAfterMiss = much > 0.97 }); break;
            case 16:
                await ledger.Do(new DescribeLotAsk(Who, "A1") { Terms = new() { Nominal = diameter, Plus = 0.001, Minus = 0.001 }, Configured = much < 0.2 });
                break;
            case 17: await ledger.Do(new LocateAsk(Who, "bed") { DiameterMetres = diameter, Lot = "A1" }); break;
            case 18: time.Advance(TimeSpan.FromSeconds(60 * much)); time.Set(TimeSpan.FromSeconds(much < 0.7 ? 0 : -10)); break;
            case 19: await Adopt(ledger, much); break;
            case 21: await ledger.Do(
                TestLedger.Measured(diameter) with
                {
                    Since = Math.Max(1, ledger.Writer.Serial - (long)(5 * much)), FirstAt = time.GetTimestamp() - (long)(90 * much * time.TimestampFrequency),
                }); break;
            case 22:
                ledger.Writer.Doubt(much < 0.5 ? TestLedger.Measured(diameter) : new EmptiedAsk(Who, "bed"), Refusal.Of(Reason.TooBusy, "busy"));
                await ledger.Do(TestLedger.Locate(diameter)); // Entries that are due are written before it.
                break;
            case 20: await (much < 0.5 ? ledger.Again() : Restart(ledger)); break;
            default: await (
                much < 0.5 ? (Task)ledger.Roll($"ledger-{ledger.Writer.Serial}")
                    : ledger.Do(new EmptiedAsk(Who, "nowhere") { Denied = much < 0.8 ? null : Refusal.Of(Reason.NotPermitted, "no") })); break;
        }
    }

    /// <summary>One of the newest answers is received, or carried out, or both; or somebody asks whether it may still be used.</summary>
    private static async Task UsesAnAnswer(TestLedger ledger, double much)
    {
        if (ledger.Rows().Where(r => r.Kind == Kinds.Answer).TakeLast(3).FirstOrDefault()?.ReadBody() is not AnswerBody answer)
        {
            return;
        }

        Ask[] asks = much < 0.2 ? [TestLedger.Received(answer)]
            : much < 0.4 ? [TestLedger.Done(answer.Serial)]
            : much < 0.5 ? [new StillAsk(Who, answer.Serial)]
            : [TestLedger.Received(answer), TestLedger.Done(answer.Serial)];
        foreach (var ask in asks)
        {
            await ledger.Do(ask);
        }
    }

    private static async Task Restart(TestLedger ledger)
    {
        await ledger.Kill();
        await ledger.Begin();
    }

    private static async Task Adopt(TestLedger ledger, double much)
    {
        var next = ledger.Fixture.Files[^1].Number + (much < 0.5 ? 1 : 0);
        ledger.Fixture = Varied.Folder([.. ledger.Fixture.Files.Where(f => f.Number != next), Varied.File(next)]);
        await ledger.Do(new AdoptAsk(Who, "bed", much > 0.8 ? 1 : next) { By = "a", Why = "w", Folder = ledger.Fixture });
    }
}
