using Stockseat.Plant.Evidence;
using Stockseat.Plant.Heads;

namespace Stockseat.Plant.Tests.Evidence;

public class StoredChoiceTests
{
    private static readonly StoredLedger[] All = [Stored(1, "a", closed: true), Stored(2, "a"), Stored(3, "b"), Stored(4, "b"), Stored(5, null)];

    [Theory]
    [InlineData(null, "a", 2)]
    [InlineData("00000001-0000-0000-0000-000000000000", null, 1)]
    [InlineData("00000004-0000-0000-0000-000000000000", "b", 4)]
    public void Clear_choice_is_taken(string? ledger, string? cell, int expected)
    {
        Assert.Equal(Stored(expected, null).Ledger, StoredChoice.Of(All, ledger, cell, out var fault)!.Ledger);
        Assert.Null(fault);
    }

    [Theory]
    [InlineData(null, null, "4 ledgers could be meant: name one with --cell CELL or --ledger ID; stockseat plant status lists them")]
    [InlineData(null, "b", "2 ledgers could be meant for cell b: name one with --ledger ID; stockseat plant status lists them")]
    [InlineData(null, "c", "the store has no ledger of cell c; stockseat plant status lists those that it has")]
    [InlineData("no-id", null, "the store has no ledger no-id; stockseat plant status lists those that it has")]
    public void Unclear_choice_says_what_to_name(string? ledger, string? cell, string expected)
    {
        Assert.Null(StoredChoice.Of(All, ledger, cell, out var fault));
        Assert.Equal(expected, fault);
    }

    [Fact]
    public void Only_ledger_need_not_be_named() => Assert.Equal(All[1], StoredChoice.Of(All[..2], null, null, out _));

    private static StoredLedger Stored(int id, string? cell, bool closed = false) =>
        new(new Guid(id, 0, 0, new byte[8]), cell, 1, 9, DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch, closed, null);
}
