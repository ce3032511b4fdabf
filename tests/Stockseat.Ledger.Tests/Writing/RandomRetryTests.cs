using CsCheck;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Roll;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Seating.Frames;
using Stockseat.Tests.Support.Clocks;

namespace Stockseat.Ledger.Tests.Writing;

/// <summary>
/// Whatever is asked with few request ids, in whatever order, across starts and rolls: what comes back without a new entry still counts, by a model that
/// knows only the entries so far; and what is refused does not count any more.
/// </summary>
public sealed class RandomRetryTests
{
    private static readonly Caller Who = new("bench", "demo", null);

    [Fact]
    public async Task An_outcome_that_comes_back_without_a_new_entry_still_counts()
    {
        var (again, lapsed) = (0, 0);
        await Gen.Select(Gen.Int[0, 20], Gen.Int[0, 2], Gen.Int[0, 3]).Array[60, 140].SampleAsync(
            async happenings =>
            {
                using var ledger = new Support.Ledger(new SteppedTime()) { Fixture = Folder(1) };
                await ledger.Begin();
                var entries = ledger.Rows().Select(r => r.ReadBody()!).ToList();
                foreach (var (what, value, id) in happenings)
                {
                    if (what == 20)
                    {
                        await ledger.Again();
                        continue;
                    }

                    var ask = Ask(what, value, entries, ledger.Writer.Serial);
                    // With the last number any ask may come, so the id usually belongs to another ask.
                    ask = ask with { Caller = Who with { Request = id == 3 ? $"any-{value}" : $"{ask.Verb}-{value}-{id}" } };
                    var before = ledger.Writer.Serial;
                    var outcome = await ledger.Do(ask);
                    await Support.Ledger.Soon(ledger.Writer.NextTurn());
                    if (outcome.Serial > before)
                    {
                        var lapse = outcome is RefusalBody { RetryOf: { } of, Text: var text } && text.Contains("holds no more", StringComparison.Ordinal)
                            ? of : 0;
                        Assert.False(lapse > 0 && InForce(entries.Find(e => e.Serial == lapse)!, entries), $"entry {outcome.Serial} refuses an id that counts");
                        entries.Add(outcome);
                        Interlocked.Add(ref lapsed, outcome is RefusalBody { RetryOf: not null } ? 1 : 0);
                        // Whatever was refused: no older diameter may be used in place of one that was pushed.
                        Assert.True(outcome is not RefusalBody { Asked: "measured" } || ledger.Writer.Situation.Find("bed")!.Measurement is null);
                        continue;
                    }

                    Interlocked.Increment(ref again);
                    Assert.True(InForce(outcome, entries),
                        $"{outcome.Kind} {outcome.Serial} came back at {before} and is not in force: "
                        + $"{string.Join(", ", entries.Select(e => $"{e.Serial} {e.Kind}"))}");
                }

                await Support.Ledger.Soon(ledger.Writer.NextTurn());
                var found = ledger.Replay();
                Assert.True(found.ExitCode == 0, string.Join("; ", found.Differences.Select(d => $"{d}: {string.Join(", ", d.Fields)}")));
            },
            iter: 24);

        Assert.True(again > 100 && lapsed > 100, $"{again} outcomes came back, {lapsed} were refused");
    }

    private static Ask Ask(int what, int value, List<EntryBody> entries, long serial) => what switch
    {
        0 or 1 or 2 => new HoldAsk(Who, "bed") { By = Name(value), Why = "w" },
        3 or 4 or 5 or 6 => new ReleaseAsk(Who, "bed") { By = "a", Why = "w", Of = Name(value) },
        7 or 8 => new MeasureAsk(Who, "bed") { ReadingsMetres = [value == 2 ? 5 : 0.09 + (value * 0.001)], Terms = new(null, null, TimeSpan.FromHours(8)) },
        9 => new EmptiedAsk(Who, "bed"),
        10 or 11 => new LocateAsk(Who, "bed") { DiameterMetres = value == 0 ? 0.09 : null, Purpose = value == 0 ? Purpose.Place : Purpose.Pick },
        12 or 13 or 14 => new ConfirmAsk(Who, Enumerable.Reverse(entries).OfType<AnswerBody>().Skip(value).FirstOrDefault()?.Serial ?? 1),
        15 => new AdoptAsk(Who, "bed", value + 1) { By = "a", Why = "w", Folder = Folder(1, 2, 3) },
        16 or 17 => new RecheckAsk(Who, "bed") { By = "a", MasterMetres = 0.08, FoundMetres = new Vector3(0, value * 0.0004, 0) },
        18 => new DescribeLotAsk(Who, "L") { Terms = new() { Nominal = 0.09 + (value * 0.001), Plus = 0.001, Minus = 0.001 }, Configured = false },
        _ => new RollAsk(Who) { By = "a", Why = "w", Next = $"ledger-{serial}" },
    };

    private static string Name(int value) => value == 0 ? "a" : "b";

    /// <summary>Whether an entry still describes the situation, judged by those after it: for each kind, what the documents say about it.</summary>
    private static bool InForce(EntryBody first, List<EntryBody> entries)
    {
        var later = entries.Where(e => e.Serial > first.Serial).ToList();
        return first switch
        {
            HeldBody b => !later.OfType<ReleasedBody>().Any(r => r.Of == b.By),
            ReleasedBody b => !later.OfType<HeldBody>().Any(h => h.By == b.Of),
            MeasurementBody => !later.Exists(Voids),
            EmptiedBody => !later.Exists(Voids) || Standing(entries) is null,
            ConfirmationBody b =>
                !later.Exists(e => e is RevisionAdoptedBody || (e is ConfirmationBody c && c.Purpose == b.Purpose && Counts(c, entries))) && Counts(b, entries),
            RevisionAdoptedBody => !later.Exists(e => e is RevisionAdoptedBody),
            RecheckBody b => !later.Exists(e => (e is RevisionAdoptedBody a && a.Digest != b.Digest) || e is RecheckBody { Passed: false }),
            LotDescribedBody => !later.Exists(e => e is LotDescribedBody),
            RolledOverBody => !later.Exists(e => e is RolledOverBody),
            AnswerBody b => Held(entries).Count == 0 && Adopted(entries).Digest == b.Digest && (b.Measurement is null || b.Measurement == Standing(entries)),
            RefusalBody b => Refused(b, entries),
            _ => false,
        };
    }

    private static bool Refused(RefusalBody b, List<EntryBody> entries) => (b.Asked, (Reason)b.Number) switch
    {
        ("measured", _) => Standing(entries) is null,
        ("locate", Reason.FixtureHeld) => Held(entries).Count > 0,
        ("locate", Reason.MeasurementMissing) => Held(entries).Count == 0 && Standing(entries) is null,
        ("release", Reason.ValueMalformed) => !Held(entries).Contains(b.Of!),
        ("adopt", Reason.ValueMalformed) => b.Adopts < Adopted(entries).Revision,
        ("confirm", Reason.SerialUnknown) => true, // 1 is never an answer
        _ => false,
    };

    private static bool Voids(EntryBody e) => e is MeasurementBody or EmptiedBody or RefusalBody { Asked: "measured" };

    private static long? Standing(List<EntryBody> entries) => entries.LastOrDefault(Voids) is MeasurementBody b ? b.Serial : null;

    private static bool Counts(ConfirmationBody b, List<EntryBody> entries) =>
        b.Confirms > entries.FindLast(e => e is RevisionAdoptedBody && e.Serial < b.Serial)!.Serial;

    private static RevisionAdoptedBody Adopted(List<EntryBody> entries) => entries.OfType<RevisionAdoptedBody>().Last();

    private static HashSet<string> Held(List<EntryBody> entries)
    {
        var held = new HashSet<string>();
        foreach (var entry in entries)
        {
            _ = entry is HeldBody h ? held.Add(h.By) : entry is ReleasedBody r && held.Remove(r.Of);
        }

        return held;
    }

    private static FixtureFolder Folder(params int[] numbers) =>
        new("bed", [.. numbers.Select(n => Support.Ledger.Revision(n, """, "limits": { "recheck": "0.5 mm" }"""))], []);
}
