using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Locate;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Tests.Support.Clocks;

namespace Stockseat.Ledger.Tests.Seals;

/// <summary>When the writer seals.</summary>
public sealed class SealingTests : IDisposable
{
    private static readonly TimeSpan After = TimeSpan.FromSeconds(30);
    private readonly SteppedTime _time = new();
    private readonly KeyFile _file = new KeyFile().Write();
    private readonly KeyFile _other = new KeyFile().Write();
    private readonly Support.Ledger _ledger;

    public SealingTests() => _ledger = new(_time);

    public void Dispose()
    {
        _ledger.Dispose();
        _file.Dispose();
        _other.Dispose();
    }

    [Fact]
    public async Task A_seal_follows_as_soon_as_N_entries_are_unsealed_and_covers_all_before_it()
    {
        await Begin(every: 3);
        for (var i = 0; i < 5; i++)
        {
            await _ledger.Do(Support.Ledger.Locate());
        }

        await Turned();

        Assert.Equal(["service-started", "revision-adopted", "answer", "seal", "answer", "answer", "answer", "seal", "answer"], Kinds());
        Assert.Equal([3, 7], Seals().Select(s => s.Sealed));
        Assert.All(Seals(), Checks);
        Assert.True(_ledger.Verify().Whole);
    }

    [Fact]
    public async Task A_seal_does_not_cause_another_seal()
    {
        await Begin(every: 1);
        Assert.Equal(["service-started", "revision-adopted", "seal"], Kinds());

        await Turned();
        _time.Advance(TimeSpan.FromDays(1));
        await Turned();

        Assert.Equal((3, 0L), (_ledger.Rows().Count, _ledger.Writer.Seals.Unsealed));
    }

    [Fact]
    public async Task After_a_quiet_time_the_writer_seals_once_counted_from_the_last_entry()
    {
        await Begin();
        _time.Advance(After - TimeSpan.FromSeconds(1));
        await Turned();
        await _ledger.Do(Support.Ledger.Locate());
        await Turned();
        _time.Advance(TimeSpan.FromSeconds(1));
        await Turned();
        _time.Advance(After - TimeSpan.FromTicks(TimeSpan.TicksPerSecond + 1));
        await Turned();
        Assert.Empty(Seals());

        _time.Advance(TimeSpan.FromMilliseconds(1));
        await _ledger.Reaches(4);
        _time.Advance(10 * After);
        await Turned();

        Assert.Equal(["service-started", "revision-adopted", "answer", "seal"], Kinds());
        Assert.Equal(EntryTime.Text(_time.GetUtcNow() - (10 * After)), EntryTime.Text(EntryTime.Parse(Seals()[0].At)));
    }

    [Fact]
    public async Task A_sign_of_life_for_the_watchdog_does_not_postpone_a_seal()
    {
        await Begin();
        for (var i = 0; i < 29; i++)
        {
            await Turned();
            _time.Advance(TimeSpan.FromSeconds(1));
        }

        Assert.Empty(Seals());
        _time.Advance(TimeSpan.FromSeconds(1));
        await _ledger.Reaches(3);
    }

    [Fact]
    public async Task A_stop_is_sealed_last_and_the_next_start_recognises_the_clean_stop()
    {
        await Begin();
        await _ledger.End();
        Assert.Equal(["service-started", "revision-adopted", "service-stopped", "seal"], Kinds());

        await _ledger.Begin();

        Assert.Equal("service-stopped", _ledger.Writer.LastKind);
        Assert.Equal((4, 1L), (_ledger.Writer.FoundSeal.Serial, _ledger.Writer.Seals.Unsealed));
        Assert.Equal("service-started", Kinds()[^1]);
    }

    [Fact]
    public async Task A_run_without_a_clean_stop_is_recognised_behind_its_seal_too()
    {
        await Begin(every: 3);
        await _ledger.Do(Support.Ledger.Locate());
        await Turned();
        _ledger.Writer.Dispose();

        await _ledger.Begin();

        Assert.Equal("answer", _ledger.Writer.LastKind);
    }

    [Fact]
    public async Task A_start_counts_from_the_newest_seal_whether_or_not_sealing_was_on_meanwhile()
    {
        await Begin(every: 9);
        await _ledger.End(); // its seal is entry 4
        _ledger.Seals = null;
        await _ledger.Begin();
        await _ledger.Do(Support.Ledger.Locate());
        await _ledger.End(); // 7 is the last entry, unsealed
        Assert.Equal("service-stopped", Kinds()[^1]);

        await Begin(every: 5);
        Assert.Equal((null, 4L), (_ledger.Rows().Count == 8 ? null : "another", _ledger.Writer.Seals.Unsealed));
        await _ledger.Do(Support.Ledger.Locate());
        await Turned();

        Assert.Equal((10, "seal", 9L), (_ledger.Rows().Count, Kinds()[^1], Seals()[^1].Sealed));
        Assert.Null(Seals()[^1].PublicKey); // the same key as the seal before
    }

    [Fact]
    public async Task The_first_seal_with_another_key_includes_its_public_key()
    {
        await Begin(every: 1);
        await _ledger.Do(Support.Ledger.Locate());
        await _ledger.End();
        await Begin(every: 1, _other);
        Assert.Equal(_file.Load().Public.Fingerprint, _ledger.Writer.FoundSeal.Key);
        await _ledger.Do(Support.Ledger.Locate());
        await _ledger.End();
        await Begin(every: 1);
        await Turned();

        string?[] halves = [_file.Load().Public.Base64, null, null, _other.Load().Public.Base64, null, null, _file.Load().Public.Base64];
        Assert.Equal(halves, Seals().Select(s => s.PublicKey));
        Assert.All(Seals(), Checks);
    }

    [Fact]
    public async Task Sealing_now_seals_the_unsealed_entries_and_nothing_else()
    {
        await Begin();
        var first = await Support.Ledger.Soon(_ledger.Writer.Seal());
        var second = await Support.Ledger.Soon(_ledger.Writer.Seal());

        Assert.Equal(2, Assert.IsType<SealBody>(first.Entry).Sealed);
        Assert.Equal((null, null), (second.Entry, second.Refusal));
        Assert.Equal(3, _ledger.Writer.Serial);
    }

    [Fact]
    public async Task Without_a_key_nothing_is_sealed()
    {
        await _ledger.Begin();
        Assert.Equal((null, null), await Support.Ledger.Soon(_ledger.Writer.Seal()) is var o ? (o.Entry, o.Refusal) : default);
        _time.Advance(TimeSpan.FromDays(1));
        await Turned();
        Assert.Equal((null, 0, 2), (_ledger.Writer.Seals.Key, _ledger.Writer.Seals.Newest.Serial, _ledger.Writer.Seals.Unsealed));
        await _ledger.End();

        Assert.Equal(["service-started", "revision-adopted", "service-stopped"], Kinds());
    }

    [Fact]
    public async Task A_clock_step_is_written_before_the_seal_that_finds_it()
    {
        await Begin();
        await Turned();
        _time.Set(TimeSpan.FromHours(1));
        await Support.Ledger.Soon(_ledger.Writer.Seal());

        Assert.Equal(["service-started", "revision-adopted", "clock-step", "seal"], Kinds());
        Assert.Equal(3, Seals()[0].Sealed);
        Assert.Equal("2026-11-25T09:00:00.000000Z", Seals()[0].At);
    }

    [Fact]
    public async Task Seals_do_not_change_the_situation()
    {
        await Begin(every: 1);
        await _ledger.Do(Support.Ledger.Measured(0.09));
        var answer = await _ledger.Do<AnswerBody>(Support.Ledger.Locate(null));
        await _ledger.CarryOut(answer);
        await _ledger.Again();

        var again = await _ledger.Do<AnswerBody>(Support.Ledger.Locate(null));

        Assert.Equal((answer.Measurement, false), (again.Measurement, again.First));
    }

    [Fact]
    public async Task The_newest_seal_is_found_without_a_scan()
    {
        await Begin(every: 1);
        using var connection = _ledger.Other();
        using var command = connection.CreateCommand();
        command.CommandText = $"EXPLAIN QUERY PLAN {LedgerQueries.NewestSealSql}";
        using var reader = command.ExecuteReader();
        Assert.True(reader.Read());
        Assert.Equal("SEARCH entry USING INDEX entry_standing (fixture=? AND kind=?)", reader.GetString(3));
        Assert.False(reader.Read());
    }

    [Fact]
    public async Task A_ledger_without_an_id_is_not_sealed()
    {
        await _ledger.Begin();
        await _ledger.End();
        _ledger.Sql("UPDATE entry SET body = replace(body, '\"ledger\"', '\"lodger\"') WHERE serial = 1");

        var fault = await Assert.ThrowsAsync<InvalidDataException>(() => Begin());

        Assert.Contains("has no ledger id", fault.Message, StringComparison.Ordinal);
    }

    private async Task Begin(int every = 1000, KeyFile? key = null)
    {
        _ledger.Seals = new((key ?? _file).Load(), every, After);
        await _ledger.Begin();
        await Turned();
    }

    /// <summary>The writer has checked twice whether a seal is due: the work that woke it is done.</summary>
    private async Task Turned()
    {
        await Support.Ledger.Soon(_ledger.Writer.NextTurn());
        await Support.Ledger.Soon(_ledger.Writer.NextTurn());
    }

    private List<string> Kinds() => [.. _ledger.Rows().Select(r => r.Kind)];

    private List<SealBody> Seals() => [.. _ledger.Rows().Select(r => r.ReadBody()).OfType<SealBody>()];

    /// <summary>The seal covers the entry before it, exactly as stored, and is signed by the key that it names.</summary>
    private void Checks(SealBody seal)
    {
        var before = _ledger.Rows()[(int)seal.Serial - 2];
        var key = new[] { _file.Load().Public, _other.Load().Public }.Single(k => k.Fingerprint == seal.Key);
        Assert.Equal((before.Serial, Convert.ToHexStringLower(before.Hash), "ledger-1"), (seal.Sealed, seal.Head, seal.Ledger));
        Assert.True(key.Verifies(SealMessage.Of(seal.Ledger, seal.Sealed, seal.Head, seal.At), seal.Signature));
    }
}
