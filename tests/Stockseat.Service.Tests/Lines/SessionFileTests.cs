using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Lines;

/// <summary>proto/line.sessions is documentation and test at once: the lines shown are sent, and the replies shown must come back.</summary>
public partial class SessionFileTests
{
    private static readonly string[] File = System.IO.File.ReadAllLines(Path.Combine(Repository.Root, "proto", "line.sessions"));

    public static TheoryData<string> Cultures => new("en-US", "de-DE", "tr-TR");

    [Theory]
    [MemberData(nameof(Cultures))]
    public async Task The_sessions_of_the_documentation_happen_as_written(string culture)
    {
        using var scope = new CultureScope(culture);
        await using var bench = await Bench.Start(configure: AsTheDemo);
        LineClient? line = null;
        var (replies, serial) = (0, "");
        foreach (var text in File.Where(t => t.Length > 0 && t[0] != '#'))
        {
            switch (text[0])
            {
                case '=':
                    line?.Dispose();
                    line = await LineClient.Connect(bench.Service.Line, Address().Match(text) is { Success: true } from ? from.Groups[1].Value : null);
                    break;
                case '>':
                    await line!.Send(text.Length > 2 ? text[2..].Replace("$serial", serial, StringComparison.Ordinal) + "\n" : "\n");
                    break;
                case '<':
                    var reply = await line!.Read();
                    Assert.Matches(Pattern(text[2..].Replace("$serial", serial, StringComparison.Ordinal)), reply);
                    serial = Answer().Match(reply!) is { Success: true } answer ? answer.Groups["serial"].Value : serial;
                    replies++;
                    break;
                default:
                    Assert.Fail($"'{text}' does not begin with #, ==, > or <");
                    break;
            }
        }

        line?.Dispose();
        Assert.Equal(File.Count(t => t.StartsWith('<')), replies);
        Assert.True(replies > 40, "the file of sessions has lost its sessions");
    }

    private static void AsTheDemo(JsonObject settings)
    {
        var options = new JsonDocumentOptions { CommentHandling = JsonCommentHandling.Skip };
        var demo = JsonNode.Parse(System.IO.File.ReadAllText(Path.Combine(Repository.Config, "stockseat.json")), null, options)!;
        foreach (var key in new[] { "Clients", "Forms", "Gauges" })
        {
            settings[key] = demo[key]!.DeepClone();
        }
    }

    /// <summary>An answer to locate, up to its end mark.</summary>
    [GeneratedRegex(@"\Aok (tag=\S+ serial=|serial=|\S+ )(?<serial>[0-9]+) .* end\z")]
    private static partial Regex Answer();

    [GeneratedRegex(@"\A== (127\.[0-9.]+) ")]
    private static partial Regex Address();

    private static string Pattern(string reply) => @"\A" + Regex.Escape(reply).Replace(@"\*", "[^ ]+", StringComparison.Ordinal) + @"\z";
}
