using System.Globalization;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>The ABNF of proto/README.md, read by a general ABNF library (apg-js), describes what the service accepts and what it replies.</summary>
public class AbnfTests
{
    private const string Lines = "6000";

    [Theory]
    [InlineData(1)]
    [InlineData(2026)]
    public async Task Lines_of_the_grammar_are_accepted_and_others_refused(int seed)
    {
        using var cell = new Cell();
        await using var service = await Built.Ordinary.Serve(cell);

        var said = (await Node.Run(
            "abnf_client.js", Path.Combine(Repository.Root, "proto", "README.md"), service.Line.Port.ToString(CultureInfo.InvariantCulture), Lines,
            seed.ToString(CultureInfo.InvariantCulture))).Exits(0).Object;

        Assert.True(said.GetProperty("wrongs").GetInt32() == 0, $"seed {seed}: {said.GetProperty("wrong")}");
        Assert.Equal(said.GetProperty("sent").GetInt32(), said.GetProperty("replied").GetInt32());
        foreach (var kind in new[] { "in accepted", "out refused" })
        {
            Assert.True(said.GetProperty("counts").GetProperty(kind).GetInt32() > 1000, $"too few lines of the kind {kind}");
        }

        foreach (var verb in new[] { "hello", "measured", "locate", "confirm", "emptied", "loaded", "next", "dropped", "status", "help" })
        {
            Assert.True(said.GetProperty("counts").GetProperty(verb).GetInt32() > 20, $"too few good lines of {verb}");
        }
    }
}
