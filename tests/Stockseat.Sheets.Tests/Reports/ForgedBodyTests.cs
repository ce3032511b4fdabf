using System.Text;
using System.Text.Json;
using Microsoft.Extensions.Time.Testing;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Roll;
using Stockseat.Audit.Replaying;
using Stockseat.Audit.Reviewing;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Showing;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Verifying;
using Stockseat.Sheets.Reports;
using Stockseat.Tests.Support.Ledgers;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Sheets.Tests.Reports;

/// <summary>
/// Every value of every kind of body in turn is replaced by another one, with a right chain: every reader of the ledger says so, and continues.
/// </summary>
public sealed class ForgedBodyTests
{
    /// <summary>In the short form every N-th forgery is read, different ones each time.</summary>
    private const int Every = 12;

    private const int MostFaults = 10;

    private static readonly bool Long = Environment.GetEnvironmentVariable("STOCKSEAT_LONG") == "1";

    [Fact]
    public async Task AnyValueOfAnyBody_MayBeAnyOther()
    {
        using var ledger = await Shop();
        using var forger = new Forger(ledger.File);
        var bodies = forger.Bodies();
        Assert.Equal(Kinds.Count, bodies.Select(b => JsonDocument.Parse(b.Body).RootElement.GetProperty("kind").GetString()).Distinct().Count());
        var first = Long ? 0 : Random.Shared.Next(Every);
        var (count, unreadable, faults) = (0, 0, new List<string>());
        foreach (var (serial, body) in bodies)
        {
            foreach (var (what, forged) in Forger.Mutations(body))
            {
                if ((count++ + first) % (Long ? 1 : Every) == 0)
                {
                    forger.Put(serial, forged);
                    try
                    {
                        unreadable += Read(ledger, serial) ? 0 : 1;
                    }
                    catch (Exception e)
                    {
                        faults.Add($"entry {serial}, {what}: {forged}\n{e}");
                        Assert.True(faults.Count < MostFaults, string.Join("\n\n", faults));
                    }
                }
            }

            forger.Put(serial, body);
        }

        Assert.True(faults.Count == 0, string.Join("\n\n", faults));
        Assert.InRange(unreadable, 1, count);
        Assert.True(Read(ledger, 1));
    }

    [Theory]
    [InlineData("answer", "/diameter", "-0.08")]
    [InlineData("lot-described", "/lotTerms", "null")]
    [InlineData("answer", "/age", "1e300")]
    [InlineData("confirmation", "/shiftBase", "[1]")]
    public async Task AValueOutOfRange_IsReportedAsUnreadable(string kind, string path, string value)
    {
        using var ledger = await Shop();
        using var forger = new Forger(ledger.File);
        var (serial, body) = forger.Bodies().First(b => b.Body.Contains($"\"kind\":\"{kind}\"", StringComparison.Ordinal));
        forger.Put(serial, Forger.Mutations(body).Single(m => m.What == $"{path} = {value}").Body);

        var review = LedgerReview.Of(ledger.Folder, new() { At = TestLedger.Start }, null, Display.Plain, CancellationToken.None)!;
        var page = ReviewReport.Page(review, Display.Plain, TestLedger.Start);

        Assert.Null(review.Entries.Single(e => e.Serial == serial).Body);
        Assert.Contains(review.Findings, f => f.Rule == FindingRule.LedgerNotWhole && f.Serials.Contains(serial));
        Assert.Contains("NOT READABLE", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AnInstantThatNoClockShows_IsReviewedAndPrinted()
    {
        using var ledger = await Shop();
        using var forger = new Forger(ledger.File);
        var (serial, body) = forger.Bodies().First(b => b.Body.Contains("\"kind\":\"answer\"", StringComparison.Ordinal));
        forger.Put(serial, Forger.Mutations(body).Single(m => m.What == "/at = \"9999-12-31T23:59:59.999999Z\"").Body);

        Assert.True(Read(ledger, 1));
        Assert.False(Read(ledger, serial));
    }

    /// <summary>Reads everything in every way; returns whether all of it could be read.</summary>
    private static bool Read(TestLedger ledger, long serial)
    {
        var question = new ReviewQuestion { At = TestLedger.Start, Before = TimeSpan.FromDays(1), After = TimeSpan.FromDays(1) };
        var review = LedgerReview.Of(ledger.Folder, question, () => ledger.Verify(), Display.Plain, CancellationToken.None)!;
        _ = ReviewReport.Page(review, Display.Plain with { Zone = TimeZoneInfo.Local }, TestLedger.Start);
        if (LedgerReview.Of(ledger.Folder, new() { Serial = serial }, null, Display.Plain, CancellationToken.None) is { } one)
        {
            _ = ReviewReport.Page(one, Display.Plain with { Zone = TimeZoneInfo.Local }, TestLedger.Start);
        }

        Assert.NotNull(LedgerReplay.One(ledger.Folder, serial));
        using var reader = LedgerReader.Open(ledger.Folder);
        return review.Entries.All(e => e.Body is not null) && ReviewEntry.Of(reader.Find(serial)!).Body is not null;
    }

    /// <summary>A ledger with every kind of entry, within a minute.</summary>
    private static async Task<TestLedger> Shop()
    {
        var ledger = await new TestLedger(new FakeTimeProvider(TestLedger.Start)) { Unclean = true }.Begin();
        await ledger.Do(TestLedger.Locate(lot: "A1"));
        await ledger.Do(TestLedger.Measured(0.091, gauge: "g", lot: "A1") with
        {
            ReadingsMetres = [0.0911, 0.0912], LotTerms = new() { Nominal = 0.0911, Plus = 0.001, Minus = 0.001, OutOfRound = 0.001 },
            Terms = new("g", 0.001, TimeSpan.FromHours(8)) { Limits = new() { LimitsOfError = 3e-5, Resolution = 1e-5, Repeatability = 1e-5 } },
        });
        var answer = (AnswerBody)await ledger.Do(TestLedger.Locate(null) with { NominalMetres = 0.091, WithinMetres = 0.001, Unit = ServedUnit.Millimetre,
            Decimals = 3 });
        await ledger.Do(TestLedger.Confirm(answer.Serial, by: FixedPoint.Text(answer.ShiftBase[1], 3, 3)));
        await ledger.Do<RefusalBody>(TestLedger.Confirm(answer.Serial, by: "1.0"));
        await ledger.Do<RefusalBody>(TestLedger.Measured(0.09) with { ReadingsMetres = [0.090, 0.0905], Terms = new(null, 1e-5, TimeSpan.FromHours(8)) });
        await ledger.Do(new EmptiedAsk(new("bench", "demo", null, null, null), "bed"));
        await ledger.Do(new HoldAsk(new("bench", null, null, null, null), "bed") { By = "setter", Why = "chips" });
        await ledger.Do<RefusalBody>(TestLedger.Locate());
        await ledger.Do(new ReleaseAsk(new("bench", null, null, null, null), "bed") { By = "setter", Why = "done", Of = "setter" });
        await ledger.Do(new RecheckAsk(new("bench", null, null, null, null), "bed") { By = "setter", MasterMetres = 0.08, FoundMetres = new(0, 0.01, 0) });
        await ledger.Do(new DescribeLotAsk(new("bench", null, null, null, null), "B7") { Terms = new() { Nominal = 0.09, Plus = 0.001, Minus = 0.001 },
            Configured = false });
        using var content = JsonDocument.Parse("{}");
        Assert.Null((await TestLedger.Soon(ledger.Writer.Append(_ =>
        [
            new RevisionRejectedBody { Fixture = "bed", Revision = 2, File = new('a', 64), Faults = ["nest is missing"] },
            new ClockStepBody { Seconds = -5, Before = EntryTime.Text(TestLedger.Start) },
            new SealBody { Ledger = "ledger-1", Sealed = 1, Head = new('b', 64), Key = new('c', 64),
                Signature = Convert.ToBase64String(Encoding.ASCII.GetBytes("none")) },
            new RolledOverBody { Next = "ledger-2", By = "setter", Why = "full" },
            new RolledOverBody { Ledger = "ledger-2", Follows = new() { Ledger = "ledger-1", Last = 3, Hash = new('d', 64) }, Carried = [Carried()] },
            new ServiceStoppedBody(),
        ]))).Refusal);
        await ledger.Close();
        return ledger;
    }

    private static JsonElement Carried()
    {
        using var json = JsonDocument.Parse("""{"v":1,"serial":2,"at":"2026-11-25T08:00:00.000000Z","kind":"emptied","fixture":"bed"}""");
        return json.RootElement.Clone();
    }

    private static class Kinds
    {
        public const int Count = 17;
    }
}
