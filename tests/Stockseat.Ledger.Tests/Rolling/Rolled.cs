using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Roll;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Ledger.Verifying;
using Stockseat.Tests.Support.Clocks;

namespace Stockseat.Ledger.Tests.Rolling;

/// <summary>What the tests of rolling do and check.</summary>
internal static class Rolled
{
    private const string Limits = """, "limits": { "recheck": "0.5 mm" }""";

    public static RollAsk Ask(string? request = null, string next = "ledger-2") =>
        new(new("bench", "demo", null, null, request)) { By = "setter", Why = "spring", Next = next };

    /// <summary>Rolls, and waits until the new ledger is written.</summary>
    public static async Task<RolledOverBody> Roll(this Support.Ledger ledger, string next = "ledger-2")
    {
        var end = await ledger.Do<RolledOverBody>(Ask(next: next));
        await Support.Ledger.Soon(ledger.Writer.NextTurn());
        return end;
    }

    /// <summary>A ledger in which everything that a roll has to carry is present.</summary>
    public static async Task<Support.Ledger> Full(SteppedTime time)
    {
        var ledger = new Support.Ledger(time) { Fixture = Folder(1) };
        await ledger.Begin();
        var who = new Caller("bench", "demo", null);
        time.Set(TimeSpan.FromHours(-1));
        await ledger.Do<LotDescribedBody>(new DescribeLotAsk(who, "A1") { Terms = new() { Nominal = 0.1 }, Configured = false });
        await ledger.Do<LotDescribedBody>(new DescribeLotAsk(who, "A1") { Terms = new() { Nominal = 0.0924 }, Configured = false });
        ledger.Fixture = Folder(1, 2);
        await ledger.Do<RevisionAdoptedBody>(new AdoptAsk(who, "bed", 2) { By = "setter", Why = "moved", Folder = ledger.Fixture });
        await ledger.Do<RecheckBody>(new RecheckAsk(who, "bed") { By = "setter", MasterMetres = 0.08, FoundMetres = new(0, 0.002, 0) });
        var pick = await ledger.Do<AnswerBody>(Support.Ledger.Locate());
        await ledger.CarryOut(pick);
        var place = await ledger.Do<AnswerBody>(Support.Ledger.Locate() with { Purpose = Purpose.Place });
        await ledger.Do<ConfirmationBody>(Support.Ledger.Received(place));
        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.091));
        await ledger.Do<EmptiedBody>(new EmptiedAsk(who, "bed"));
        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.09, lot: "A1"));
        await ledger.Do<HeldBody>(new HoldAsk(who, "bed") { By = "setter", Why = "pins" });
        await ledger.Do<HeldBody>(new HoldAsk(who, "bed") { By = "oil", Why = "oil" });
        await ledger.Do<ReleasedBody>(new ReleaseAsk(who, "bed") { By = "setter", Why = "done", Of = "setter" });
        await Support.Ledger.Soon(ledger.Writer.Append(_ => [new RevisionRejectedBody { Fixture = "bed", Revision = 3, File = "abc", Faults = ["x"] }]));
        return ledger;
    }

    /// <summary>The whole situation, as text.</summary>
    public static string Text(this Situation s) => string.Join('\n',
    [
        $"{s.StepBack}", .. s.Lots.OrderBy(l => l.Key, StringComparer.Ordinal).Select(l => $"{l.Key} {l.Value}"),
        .. s.Fixtures.Select(f =>
            $"{f.Fixture} {f.InForce?.Number} {f.InForce?.Digest} {f.AdoptedBy} [{string.Join(',', f.Adopted.OrderBy(a => a.Key))}] "
            + $"[{string.Join(',', f.Adoptions.OrderBy(a => a.Key))}]"
            + $" {f.Measurement?.ToString() ?? f.NoMeasurement} {f.ConfirmedPick} {f.ConfirmedPlace} {f.Progress.Text()} {f.Served} "
                + $"[{string.Join(',', f.Holds.Values.OrderBy(h => h.By, StringComparer.Ordinal))}] {f.Missed?.Serial} {f.Rejected} {f.Cleared} "
                + $"{f.Load?.Text()}"),
    ]);

    private static string Text(this Load l) =>
        $"{l.Serial} {l.Lot} {l.Count} [{string.Join(',', l.Raw)}] [{string.Join(',', l.Placed)}] "
            + $"[{string.Join(',', l.Moves.OrderBy(m => m.Value))}] {l.Open?.Answer} {l.Open?.Purpose} {l.Open?.Column},{l.Open?.Row} "
            + $"{l.Dropped} [{string.Join(',', l.Measured.OrderBy(m => m.Key))}]";

    private static string Text(this Progress p) =>
        $"{p.Since} {p.Picked} {p.Placed} [{string.Join(',', p.Nests.OrderBy(n => n.Key))}] [{string.Join(',', p.Received)}] [{string.Join(',', p.Passed)}]";

    /// <summary>Each ledger of the folder is intact, the ledgers name each other, and no serial is missing.</summary>
    public static void IsWhole(this Support.Ledger ledger, int closed)
    {
        var files = ClosedLedgers.Of(ledger.Folder);
        Assert.Equal(closed, files.Count);
        foreach (var (_, path) in files)
        {
            Assert.EndsWith(".db", path, StringComparison.Ordinal);
            using var connection = LedgerFile.OpenClosed(path);
            Assert.Empty(LedgerVerifier.Verify(connection, CancellationToken.None).Faults);
        }

        Assert.Empty(ledger.Verify().Faults);
        Assert.Empty(LedgerLinks.Check(ledger.Folder, away => Assert.Fail(away)));
        Assert.Equal(["ledger.db"], Directory.GetFiles(ledger.Folder, "*.db").Select(Path.GetFileName));
        Assert.Empty(Directory.GetFiles(Path.Combine(ledger.Folder, ClosedLedgers.Folder)).Except(files.Select(f => f.Path)));
        using var reader = LedgerReader.Open(ledger.Folder);
        Assert.Equal(Enumerable.Range(1, (int)reader.Last).Select(i => (long)i), reader.Piece(0, reader.Last, int.MaxValue, null).Rows.Select(r => r.Serial));
    }

    private static FixtureFolder Folder(params int[] numbers) => new("bed", [.. numbers.Select(n => Support.Ledger.Revision(n, Limits))], []);
}
