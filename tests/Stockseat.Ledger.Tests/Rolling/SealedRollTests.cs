using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Locate;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Ledger.Verifying;

namespace Stockseat.Ledger.Tests.Rolling;

/// <summary>Sealed ledgers that roll over.</summary>
public sealed class SealedRollTests : IDisposable
{
    private readonly KeyFile _file = new KeyFile().Write();
    private readonly Support.Ledger _ledger = new();

    [Fact]
    public async Task Each_ledger_includes_its_key_and_is_intact_alone_and_anchors_of_all_are_right()
    {
        var key = _file.Load();
        _ledger.Seals = new(key, 3, TimeSpan.FromDays(1));
        await _ledger.Begin();
        var anchors = new List<Anchor>();
        for (var i = 2; i <= 3; i++)
        {
            anchors.Add(await Anchored());
            await _ledger.Roll($"ledger-{i}");
            Assert.Equal((0, 1), (_ledger.Writer.Seals.Newest.Serial, _ledger.Writer.Seals.Unsealed));
            await _ledger.Do<AnswerBody>(Support.Ledger.Locate());
        }

        anchors.Add(await Anchored());
        Assert.Equal(["ledger-1", "ledger-2", "ledger-3"], anchors.Select(a => a.Ledger));
        var seal = Assert.IsType<SealBody>(_ledger.Rows().First(r => r.Kind == Kinds.Seal).ReadBody());
        Assert.Equal(key.Public.Base64, seal.PublicKey);
        await _ledger.Again();
        await _ledger.End();

        _ledger.IsWhole(closed: 2);
        var v = _ledger.Verify(new() { RequireSeal = true, Tail = 0, Keys = [key.Public], Anchors = anchors });
        Assert.Empty(v.Faults);
        Assert.Equal(3, v.Findings.Count(f => f.Contains(" holds", StringComparison.Ordinal)));
        Assert.DoesNotContain(_ledger.Verify(new() { Anchors = anchors }).Findings, f => f.Contains("was not checked", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Another_key_after_a_roll_is_reported()
    {
        _ledger.Seals = new(_file.Load(), 3, TimeSpan.FromDays(1));
        await _ledger.Begin();
        await Anchored();
        await _ledger.Roll();
        await _ledger.Close();
        var told = new List<string>();
        Assert.Empty(LedgerLinks.Check(_ledger.Folder, told.Add));
        Assert.Empty(told);

        _ledger.Sql("DELETE FROM entry WHERE kind = 'seal'"); // as if it had been killed before its first seal
        _ledger.Seals = new(_file.Write(KeyFile.New()).Load(), 3, TimeSpan.FromDays(1));
        await _ledger.Begin();
        await _ledger.End();

        Assert.Empty(LedgerLinks.Check(_ledger.Folder, told.Add));
        Assert.Contains("is sealed with another key than the ledger before it", Assert.Single(told), StringComparison.Ordinal);
        Assert.Empty(_ledger.Verify(new() { RequireSeal = true }).Faults);
    }

    public void Dispose()
    {
        _ledger.Dispose();
        _file.Dispose();
    }

    private async Task<Anchor> Anchored()
    {
        Assert.Null((await Support.Ledger.Soon(_ledger.Writer.Seal())).Refusal);
        using var connection = Stockseat.Ledger.Store.LedgerFile.OpenReader(_ledger.Folder);
        return Anchors.Newest(connection)!;
    }
}
