using System.Text.RegularExpressions;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Lines;

/// <summary>proto/line.sessions is documentation and test at once: what it says is sent is sent, and what it says comes back does.</summary>
public class SessionFileTests
{
    private static readonly string[] File = System.IO.File.ReadAllLines(Path.Combine(Repository.Root, "proto", "line.sessions"));

    public static TheoryData<string> Cultures => new("en-US", "de-DE", "tr-TR");

    [Theory]
    [MemberData(nameof(Cultures))]
    public async Task The_sessions_of_the_documentation_happen_as_written(string culture)
    {
        using var scope = new CultureScope(culture);
        await using var bench = await Bench.Start();
        LineClient? line = null;
        var replies = 0;
        foreach (var text in File.Where(t => t.Length > 0 && t[0] != '#'))
        {
            switch (text[0])
            {
                case '=':
                    line?.Dispose();
                    line = await bench.Line();
                    break;
                case '>':
                    await line!.Send(text.Length > 2 ? text[2..] + "\n" : "\n");
                    break;
                case '<':
                    Assert.Matches(Pattern(text[2..]), await line!.Read());
                    replies++;
                    break;
                default:
                    Assert.Fail($"'{text}' begins with none of # == > <");
                    break;
            }
        }

        line?.Dispose();
        Assert.Equal(File.Count(t => t.StartsWith('<')), replies);
        Assert.True(replies > 20, "the file of sessions has lost its sessions");
    }

    private static string Pattern(string reply) => @"\A" + Regex.Escape(reply).Replace(@"\*", "[^ ]+", StringComparison.Ordinal) + @"\z";
}
