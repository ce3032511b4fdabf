using Stockseat.Answers.Locate;
using Stockseat.Ledger.Tests.Support;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Ledger.Tests.Writing;

/// <summary>Request ids have a table of their own; where the table and the bodies disagree, the bodies are right.</summary>
public sealed class RequestTableTests : IDisposable
{
    private readonly TestLedger _ledger = new(new SteppedTime());

    [Fact]
    public async Task The_table_has_the_ids_of_all_committed_entries()
    {
        await _ledger.Begin();
        var first = await _ledger.Do(TestLedger.Locate(request: "a"));
        await _ledger.Do(TestLedger.Locate());
        Assert.Equal(first.Serial, (await _ledger.Do(TestLedger.Locate(request: "a"))).Serial);

        Assert.Equal($"{first.Serial} bench a", Table());
        Assert.Empty(_ledger.Verify().Faults);
    }

    [Theory]
    [InlineData("DELETE FROM request", "is missing from the table")]
    [InlineData("UPDATE request SET request = 'b'", "has another id for entry 3 than its body")]
    [InlineData("UPDATE request SET client = 'other'", "has another id for entry 3 than its body")]
    [InlineData("INSERT INTO request VALUES (2, 'bench', 'c')", "has another id for entry 2 than its body")]
    public async Task Where_the_table_disagrees_verify_says_so_and_the_writer_makes_it_again(string sql, string said)
    {
        await _ledger.Begin();
        var first = await _ledger.Do(TestLedger.Locate(request: "a"));
        await _ledger.Close();
        Assert.Equal(1, _ledger.Sql(sql));
        Assert.Contains(said, Assert.Single(_ledger.Verify().Faults).Text, StringComparison.Ordinal);
        await _ledger.Begin();

        Assert.Equal(first.Serial, (await _ledger.Do(TestLedger.Locate(request: "a"))).Serial);
        Assert.Equal($"{first.Serial} bench a", Table());
        Assert.Empty(_ledger.Verify().Faults);
    }

    [Fact]
    public async Task An_id_that_points_to_another_entry_far_back_is_found_when_it_is_used()
    {
        await _ledger.Begin();
        var first = await _ledger.Do(TestLedger.Locate(request: "a"));
        var other = await _ledger.Do(TestLedger.Locate(0.085));
        for (var i = 0; i < 11; i++)
        {
            await Task.WhenAll(Enumerable.Range(0, 100).Select(_ => _ledger.Writer.Append(TestLedger.Locate())));
        }

        await _ledger.Close();
        Assert.Equal(1, _ledger.Sql($"UPDATE request SET serial = {other.Serial} WHERE serial = {first.Serial}"));
        await _ledger.Begin();

        Assert.Equal(first.Serial, (await _ledger.Do(TestLedger.Locate(request: "a"))).Serial);
        Assert.Equal($"{first.Serial} bench a", Table());
    }

    [Fact]
    public async Task A_ledger_of_the_first_version_has_no_table_and_uses_its_bodies()
    {
        using var old = await new TestLedger(new SteppedTime()) { Tables = 1 }.Begin();
        var first = await old.Do(TestLedger.Locate(request: "a"));
        await old.Again();

        Assert.Equal(first.Serial, (await old.Do<AnswerBody>(TestLedger.Locate(request: "a"))).Serial);
        using var connection = old.Other();
        Assert.Equal("1", TestLedger.Scalar(connection, "SELECT count(*) FROM sqlite_schema WHERE type = 'table'"));
    }

    public void Dispose() => _ledger.Dispose();

    private string? Table()
    {
        using var connection = _ledger.Other();
        return TestLedger.Scalar(connection, "SELECT group_concat(serial || ' ' || client || ' ' || request) FROM request");
    }
}
