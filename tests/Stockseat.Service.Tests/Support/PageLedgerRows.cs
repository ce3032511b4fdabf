using System.Text.Json.Nodes;
using Stockseat.Ledger.Reading;

namespace Stockseat.Service.Tests.Support;

/// <summary>The entries of a bench's ledger, as they were written.</summary>
internal static class PageLedgerRows
{
    public static List<JsonNode> Of(Bench bench)
    {
        using var reader = LedgerReader.Open(Path.Combine(bench.Folder, "data"));
        return [.. reader.Newest(1000).Select(r => JsonNode.Parse(r.Body)!)];
    }

    public static string? Text(JsonNode body, string key) => (string?)body[key];
}
