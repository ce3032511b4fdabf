using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>A wrong word is named together with the nearest right one; nothing else happens.</summary>
public abstract class UsageErrorTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : UsageErrorTests(Build.Ordinary);

    public sealed class Native() : UsageErrorTests(Build.Native);

    [Theory]
    [InlineData("fixtur list", "'fixtur' is not a command of stockseat; did you mean 'fixture'?")]
    [InlineData("fixture lst --json", "'lst' is not a command of stockseat fixture; did you mean 'list'?")]
    [InlineData("verify", "'verify' is not a command of stockseat; did you mean 'stockseat ledger verify' or 'stockseat plant verify'?")]
    [InlineData("restart", "'restart' is not a command of stockseat; name one of tour, serve, settings")]
    [InlineData("", "a command is missing after 'stockseat'; name one of tour, serve, settings")]
    [InlineData("ledger", "a command is missing after 'stockseat ledger'; name one of tail, list")]
    [InlineData("locate pinbed-1 --diametr 92mm", "'--diametr' is not an option of 'stockseat locate'; did you mean '--diameter'?")]
    [InlineData("locate pinbed-1 --dia 92mm", "'--dia' is not an option of 'stockseat locate'; did you mean '--diameter'?")]
    [InlineData("locate pinbed-1 92mm", "'92mm' is one word too many for 'stockseat locate'")]
    [InlineData("locate", "FIXTURE is missing after 'stockseat locate'")]
    [InlineData("locate pinbed-1 --diameter", "--diameter has no value; LENGTH was expected")]
    [InlineData("locate pinbed-1 --purpose pik", "--purpose is 'pik'; pick or place was expected; did you mean 'pick'?")]
    [InlineData("locate pinbed-1 --diameter 92MM", "('MM' is not a unit; did you mean 'mm'?)")]
    [InlineData("locate pinbed-1 --diameter 3.6inch", "('inch' is not a unit; did you mean 'in'?)")]
    [InlineData("locate pinbed-1 --diameter 9.2cm", "('cm' is not a unit); units are mm, m, um and in")]
    [InlineData("fixture adopt pinbed-1 3 --why moved", "--by WHO is missing: who adopts it")]
    [InlineData("fixture calibrate pinbed-1 t.csv --by x --origin tuched", "did you mean 'touched'?")]
    [InlineData("ledger tail --count many", "--count: 'many' is not a number of entries; a whole number from 1 to 1000 was expected")]
    [InlineData("ledger list --after x", "--after: 'x' is not a serial; a whole number, 0 or above, was expected")]
    [InlineData("ledger verify --tail -1", "--tail: '-1' is not a number of entries; a whole number, 0 or above, was expected")]
    public async Task A_wrong_word_is_named_with_the_nearest_right_one(string line, string said) =>
        (await Program.Run(line.Split(' ', StringSplitOptions.RemoveEmptyEntries))).Fails(64, said);

    [Fact]
    public async Task The_value_of_an_unknown_option_is_not_a_second_mistake()
    {
        var said = (await Program.Run("locate", "pinbed-1", "--diametr", "92mm")).Fails(64, "--diametr").Err;

        Assert.DoesNotContain("92mm", said, StringComparison.Ordinal);
        Assert.Contains("see stockseat locate --help", said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_wrong_fixture_is_named_with_the_nearest_of_the_folder_or_of_the_service()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        (await Program.Run("fixture", "check", "pinbd-1", "--config", cell.Config)).Fails(2, "did you mean 'pinbed-1'?");
        var said = (await service.Ask("locate", "pinbed1", "--diameter", "92mm")).Fails(1, "refused: fixture-unknown: ").Err;

        Assert.Contains("this service has pinbed-1, rollers-3, veerack-2; did you mean 'pinbed-1'?", said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_wrong_form_or_gauge_is_named_with_the_nearest()
    {
        using var cell = new Cell();

        (await Program.Run("settings", "--config", cell.Config, "--form", "shrt")).Fails(64, "did you mean 'short'?");
        (await Program.Run("fixture", "check", "pinbed-1", "--config", cell.Config, "--gauge", "bench2")).Fails(64, "did you mean 'bench-2'?");
    }
}
