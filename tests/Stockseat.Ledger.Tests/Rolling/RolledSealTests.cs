using Stockseat.Answers.Events;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Ledger.Verifying;

namespace Stockseat.Ledger.Tests.Rolling;

/// <summary>A sealed ledger rolls over: seals and anchors on both sides.</summary>
public sealed class RolledSealTests : IDisposable
{
    private readonly KeyFile _file = new KeyFile().Write();
    private readonly Support.Ledger _ledger = new();
    private readonly SealKey _key;

    public RolledSealTests() => _ledger.Seals = new(_key = SealKey.Load(_file.Path, _ledger.Folder), 100, TimeSpan.FromHours(1));

    public void Dispose()
    {
        _ledger.Dispose();
        _key.Dispose();
        _file.Dispose();
    }

    [Fact]
    public async Task The_new_ledger_is_sealed_under_its_own_id_and_includes_the_key_again()
    {
        await _ledger.Begin();
        await Seal();
        await _ledger.Roll();
        Assert.Equal(1, _ledger.Writer.Seals.Unsealed); // only its first entry, and not all serials before it
        var seal = await Seal();

        Assert.Equal(("ledger-2", _key.Public.Base64), (seal.Ledger, seal.PublicKey));
        var verified = LedgerVerifier.Verify(_ledger.Folder, new() { RequireSeal = true, Keys = [_key.Public] }, CancellationToken.None);
        Assert.Empty(verified.Faults);
        Assert.Equal("ledger-2", verified.Ledger);
        _ledger.IsWhole(closed: 1);
    }

    [Fact]
    public async Task An_anchor_from_before_the_roll_is_right_in_the_closed_ledger()
    {
        await _ledger.Begin();
        var anchor = Anchor.Of(await Seal());
        await _ledger.Roll();

        Assert.Contains(Verify(anchor).Findings, f => f.Contains("holds", StringComparison.Ordinal));
    }

    [Fact]
    public async Task An_anchor_that_the_closed_ledger_contradicts_is_a_fault()
    {
        await _ledger.Begin();
        var anchor = Anchor.Of(await Seal());
        await _ledger.Roll();

        var forged = anchor with { Hash = new('0', 64), Key = null, Signature = null };
        var result = LedgerVerifier.Verify(_ledger.Folder, new() { Anchors = [forged] }, CancellationToken.None);
        Assert.Equal(FaultKinds.Fork, Assert.Single(result.Faults).Kind);

        var foreign = anchor with { Ledger = "another", Key = null, Signature = null };
        Assert.Equal(2, LedgerVerifier.Verify(_ledger.Folder, new() { Anchors = [foreign] }, CancellationToken.None).ExitCode); // maybe of a moved ledger
    }

    [Fact]
    public async Task A_first_entry_that_does_not_name_its_predecessor_in_its_place_is_a_fault()
    {
        await _ledger.Begin();
        await _ledger.Roll();
        await _ledger.End();
        using (var connection = new Microsoft.Data.Sqlite.SqliteConnection($"Data Source={_ledger.File};Pooling=False"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            // Removing the first entry leaves a gap; renumbering it leaves columns that differ.
            command.CommandText = "DELETE FROM entry WHERE serial = (SELECT min(serial) FROM entry)";
            Assert.Equal(1, command.ExecuteNonQuery());
        }

        Assert.Contains(LedgerVerifier.Verify(_ledger.Folder, new(), CancellationToken.None).Faults, f => f.Kind == FaultKinds.Gap);
    }

    private Verification Verify(Anchor anchor)
    {
        var result = LedgerVerifier.Verify(_ledger.Folder, new() { Anchors = [anchor], Keys = [_key.Public] }, CancellationToken.None);
        Assert.True(result.Whole, string.Join("; ", result.Faults) + result.Unreadable);
        return result;
    }

    private async Task<SealBody> Seal() => Assert.IsType<SealBody>((await Support.Ledger.Soon(_ledger.Writer.Seal())).Entry);
}
