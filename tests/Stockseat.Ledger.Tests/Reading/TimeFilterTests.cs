using CsCheck;
using Stockseat.Answers.Entries;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Tests.Support.Clocks;

namespace Stockseat.Ledger.Tests.Reading;

/// <summary>Entries of a time, found by bisecting: the result is the same as by looking at each entry, however the clock was set.</summary>
public sealed class TimeFilterTests
{
    [Fact]
    public async Task Entries_of_a_time_are_those_found_by_looking_at_each_entry()
    {
        var (found, steps) = (0, 0);
        await Gen.Select(Gen.Int[0, 9], Gen.Double[0, 1]).Array[5, 40].SampleAsync(
            async happenings =>
            {
                var time = new SteppedTime();
                using var ledger = await new Support.Ledger(time).Begin();
                foreach (var (what, much) in happenings)
                {
                    await Happens(ledger, time, what, much);
                }

                var rows = ledger.Rows();
                using var reader = LedgerReader.Open(ledger.Folder);
                foreach (var from in rows.Select(r => EntryTime.Parse(r.At)).Distinct())
                {
                    foreach (var (after, length) in new[] { (0L, TimeSpan.FromSeconds(0.7)), (0L, TimeSpan.FromHours(2)),
                        (rows.Count / 2, TimeSpan.FromMinutes(1)) })
                    {
                        var filter = new EntryFilter { From = from, To = from + length };
                        var expected = rows.Where(r => r.Serial > after && EntryTime.Parse(r.At) >= from && EntryTime.Parse(r.At) < from + length)
                            .Select(r => r.Serial).ToList();
                        Assert.Equal(expected, All(reader, after, filter));
                        Interlocked.Add(ref found, expected.Count);
                    }

                    Assert.Equal(rows.Where(r => EntryTime.Parse(r.At) < from).Select(r => r.Serial), All(reader, 0, new() { To = from }));
                }

                Interlocked.Add(ref steps, rows.Count(r => r.Kind == Kinds.ClockStep));
            },
            iter: 20);

        Assert.True(found > 1000 && steps > 20, $"{found} entries, {steps} steps");
    }

    [Fact]
    public async Task A_time_late_in_a_long_ledger_is_found_in_one_piece()
    {
        using var ledger = await new Support.Ledger(new SteppedTime()).Begin();
        ledger.Sql(
            "WITH RECURSIVE n(i) AS (SELECT 3 UNION ALL SELECT i + 1 FROM n WHERE i < 300000) INSERT INTO entry (serial, at, kind, body, hash)"
            + " SELECT i, strftime('%Y-%m-%dT%H:%M:%S.000000Z', '2026-11-25 08:00:00', '+' || i || ' seconds'), 'answer', '{}', x'00' FROM n");
        using var reader = LedgerReader.Open(ledger.Folder);
        var at = Support.Ledger.Start.AddSeconds(290_000);

        var piece = reader.Piece(0, reader.Last, 100, new() { From = at, To = at.AddSeconds(5) });

        Assert.Equal([290_000, 290_001, 290_002, 290_003, 290_004], piece.Rows.Select(r => r.Serial));
        Assert.Equal(300_000, piece.End);
        Assert.Empty(reader.Piece(0, reader.Last, 100, new() { From = DateTimeOffset.MaxValue }).Rows);
        Assert.Empty(reader.Piece(0, reader.Last, 100, new() { To = DateTimeOffset.MinValue }).Rows);
    }

    [Fact]
    public async Task Lot_and_cell_are_taken_from_their_keys_in_the_body_and_not_from_any_text_in_it()
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do(Support.Ledger.Measured(0.09, lot: "A1"));
        await ledger.Do(Support.Ledger.Measured(0.09, lot: "A10"));
        await ledger.Do(Support.Ledger.Locate(null, lot: "A1"));
        await ledger.Do(new Answers.Hold.HoldAsk(new("bench", "demo", null, null, null), "bed") { By = "x", Why = "\"lot\":\"A1\"" });
        ledger.Sql("UPDATE entry SET body = replace(body, '}', '') WHERE serial = 4");
        using var reader = LedgerReader.Open(ledger.Folder);

        Assert.Equal([3, 5], All(reader, 0, new() { Lot = "A1" }));
        Assert.Empty(All(reader, 0, new() { Lot = "A10" })); // its body can't be read, and nothing fails
        Assert.Equal([5, 6], All(reader, 0, new() { Cell = "demo" }));
        Assert.Equal([5], All(reader, 0, new() { Cell = "demo", Lot = "A1" }));
    }

    private static List<long> All(LedgerReader reader, long after, EntryFilter filter)
    {
        var all = new List<long>();
        for (var last = reader.Last; after < last;)
        {
            var piece = reader.Piece(after, last, 3, filter);
            Assert.InRange(piece.End, after + 1, last);
            all.AddRange(piece.Rows.Select(r => r.Serial));
            after = piece.End;
        }

        return all;
    }

    private static async Task Happens(Support.Ledger ledger, SteppedTime time, int what, double much)
    {
        switch (what)
        {
            case 0: time.Set(TimeSpan.FromHours(-much)); break;
            case 1: time.Set(TimeSpan.FromHours(much)); break;
            case 2: time.Set(TimeSpan.FromSeconds(-much)); break; // too small a step to be recorded
            case 3: await ledger.Again(); break;
            case 4: time.Advance(TimeSpan.FromHours(much)); break;
            default: time.Advance(TimeSpan.FromSeconds(much)); break;
        }

        await ledger.Do(Support.Ledger.Locate());
    }
}
