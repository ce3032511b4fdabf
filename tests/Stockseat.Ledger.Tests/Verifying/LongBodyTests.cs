using System.Globalization;
using System.Text;
using System.Text.Json;
using Stockseat.Answers.Verbs;
using Stockseat.Audit.Copying;
using Stockseat.Audit.Replaying;
using Stockseat.Audit.Reviewing;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Showing;
using Stockseat.Ledger.Store;
using Stockseat.Tests.Support.Ledgers;

namespace Stockseat.Ledger.Tests.Verifying;

/// <summary>A body has a maximum length, and every reader of the ledger asks for the length before it reads the body.</summary>
[Collection(nameof(Alone))]
public sealed class LongBodyTests
{
    /// <summary>Allocated bytes are counted for the whole process.</summary>
    [CollectionDefinition(nameof(Alone), DisableParallelization = true)]
    public sealed class Alone;

    private const int Huge = 100 << 20;
    private const long Bound = 32 << 20;

    [Fact]
    public async Task A_body_of_100_MB_is_listed_reviewed_verified_and_replayed_in_bounded_memory()
    {
        using var ledger = await Begun(Huge);
        Verification(ledger, "has a body that can't be read: it has ");

        Within(() => Assert.Equal("", ledger.Rows()[2].Body));
        Within(() => Assert.Contains(LedgerReview.Of(ledger.Folder, new() { Serial = 3 }, null, Display.Plain, CancellationToken.None)!.Findings, f =>
            f.Rule == FindingRule.LedgerNotWhole && f.Serials.Contains(3)));
        Within(() => Assert.Contains("a body may have at most 4194304", LedgerReplay.Run(ledger.Folder, new(), CancellationToken.None).Unreadable,
            StringComparison.Ordinal));
        Within(() => Assert.Contains("4194304", LedgerReplay.One(ledger.Folder, 3)!.Value.Result.Unreadable, StringComparison.Ordinal));
        Within(() => Assert.Contains(ledger.Verify(new() { Ranges = 4, Piece = 2 }).Faults, f => f is { Serial: 3, Kind: "body" }));
    }

    [Fact]
    public async Task One_byte_too_many_is_a_fault_and_the_greatest_length_is_not()
    {
        using (var ledger = await Begun(BodyJson.Longest))
        {
            Assert.Empty(ledger.Verify().Faults);
            Assert.NotNull(ledger.Rows()[2].ReadBody());
        }

        using var longer = await Begun(BodyJson.Longest + 1);
        Verification(longer, "it has 4194305 bytes; a body may have at most 4194304");
        Assert.Throws<JsonException>(() => longer.Rows()[2].ReadBody());
    }

    [Fact]
    public async Task A_copy_has_a_body_that_is_too_long_byte_for_byte()
    {
        using var ledger = await Begun(BodyJson.Longest + 1);
        var to = Path.Combine(ledger.Folder, "copy");

        var verified = LedgerCopy.Make(ledger.Folder, to, (_, _) => { }, CancellationToken.None);

        Assert.Equal([(3L, "body")], verified.Faults.Select(f => (f.Serial, f.Kind)));
        Assert.Equal(ledger.Verify().HeadHash, verified.HeadHash);
    }

    /// <summary>The SQL statement states the numbers itself.</summary>
    [Fact]
    public void The_statement_that_reads_rows_has_the_same_limits()
    {
        var bounds = string.Create(CultureInfo.InvariantCulture, $" THEN {BodyJson.LongestRolledOver} ELSE {BodyJson.Longest} ");
        Assert.Contains(bounds, LedgerQueries.RechecksSql, StringComparison.Ordinal);
        Assert.Equal((BodyJson.LongestRolledOver, BodyJson.Longest), (BodyJson.LongestOf("rolled-over"), BodyJson.LongestOf("answer")));
    }

    private static void Verification(Support.Ledger ledger, string said) =>
        Assert.Contains(ledger.Verify().Faults, f => f is { Serial: 3, Kind: "body" } && f.Text.Contains(said, StringComparison.Ordinal));

    private static void Within(Action read)
    {
        var before = GC.GetTotalAllocatedBytes(precise: true);
        read();
        Assert.InRange(GC.GetTotalAllocatedBytes(precise: true) - before, 0, Bound);
    }

    /// <summary>A ledger whose entry 3, an answer, has a body of that many bytes.</summary>
    private static async Task<Support.Ledger> Begun(int bytes)
    {
        var ledger = await new Support.Ledger().Begin();
        await ledger.Do(Support.Ledger.Locate());
        await ledger.Do(Support.Ledger.Measured(0.091));
        await ledger.Close();
        using var forger = new Forger(ledger.File);
        forger.Lengthen(3, bytes);
        Assert.Equal(bytes, Encoding.UTF8.GetByteCount(forger.Bodies()[2].Body));
        return ledger;
    }
}
