using Microsoft.Extensions.Time.Testing;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Lines;

/// <summary>A flood of bad lines is answered line by line and does not fill the log.</summary>
public class FloodTests
{
    [Fact]
    public async Task Of_many_bad_lines_one_a_second_is_logged_with_the_count_of_the_others()
    {
        var time = new FakeTimeProvider(DateTimeOffset.UnixEpoch.AddYears(56));
        await using var bench = await Bench.Start(time);
        using var line = await bench.Line();
        await line.Ask("hello");
        for (var i = 0; i < 50; i++)
        {
            Assert.StartsWith("refused class=request reason=request-malformed", await line.Ask("\u00e9"), StringComparison.Ordinal);
        }

        time.Advance(TimeSpan.FromSeconds(2));
        await line.Ask("\u00e9");

        var logged = bench.Log.All.Select(e => e.Text).Where(t => t.StartsWith("Refused a line", StringComparison.Ordinal)).ToList();
        Assert.Collection(
            logged,
            t => Assert.EndsWith("; 0 similar ones before it were not logged", t, StringComparison.Ordinal),
            t => Assert.EndsWith("; 49 similar ones before it were not logged", t, StringComparison.Ordinal));
    }
}
