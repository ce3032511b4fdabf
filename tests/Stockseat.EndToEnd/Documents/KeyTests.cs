using System.Text.Json;
using System.Text.RegularExpressions;

namespace Stockseat.EndToEnd.Documents;

/// <summary>Every key that a schema knows is explained in a document, and each command that a document names is one.</summary>
public sealed partial class KeyTests
{
    [Theory]
    [InlineData("config/stockseat.schema.json")]
    [InlineData("config/fixtures/fixture.schema.json")]
    public void EveryKey_IsExplained(string schema)
    {
        using var json = JsonDocument.Parse(File.ReadAllText(Path.Combine(Repository.Root, schema)));
        var prose = new[] { "config/README.md", "proto/README.md" }.SelectMany(p => Document.Open(p).Prose).Select(l => l.Text);
        var code = prose.SelectMany(l => Code().Matches(l)).SelectMany(m => Word().Matches(m.Groups["code"].Value)).Select(w => w.Value)
            .ToHashSet(StringComparer.Ordinal);

        var unexplained = Keys(json.RootElement).Distinct().Except(code).Except(["$schema"]).ToList();
        Assert.True(unexplained.Count == 0, $"no document explains {string.Join(", ", unexplained)}");
    }

    /// <summary>The names of all properties, wherever the schema says them.</summary>
    private static IEnumerable<string> Keys(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => element.EnumerateObject().SelectMany(p =>
            p.Name == "properties" ? p.Value.EnumerateObject().Select(k => k.Name).Concat(p.Value.EnumerateObject().SelectMany(k => Keys(k.Value)))
                : Keys(p.Value)),
        JsonValueKind.Array => element.EnumerateArray().SelectMany(Keys),
        _ => [],
    };

    [GeneratedRegex("`(?<code>[^`]+)`")]
    private static partial Regex Code();

    [GeneratedRegex("[A-Za-z$]+")]
    private static partial Regex Word();
}
