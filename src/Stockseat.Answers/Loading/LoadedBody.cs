using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Loading;

/// <summary>Somebody said what stands in the nests: a load, whose id is the serial of this entry.</summary>
public sealed record LoadedBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Loaded;

    public string? Lot { get; init; }

    /// <summary>What was known of the lot; absent when no lot was named.</summary>
    public LotTerms? LotTerms { get; init; }

    /// <summary>The columns and rows of the layout.</summary>
    public required int Columns { get; init; }

    public required int Rows { get; init; }

    /// <summary>Only so many nests, the first ones, row by row; absent when it was not stated so.</summary>
    public int? First { get; init; }

    /// <summary>Only these nests, column and row of each; absent when it was not stated so. With neither, all nests.</summary>
    public IReadOnlyList<int[]>? Nests { get; init; }

    /// <summary>How many nests have stock.</summary>
    public required int Count { get; init; }

    /// <summary>The load before it, which nobody had ended; absent when there was none.</summary>
    public long? Replaces { get; init; }

    /// <summary>How many nests of that load still had raw stock.</summary>
    public int? ReplacedLeft { get; init; }

    /// <summary>The answer of that load whose move was neither carried out nor dropped; absent when there was none.</summary>
    public long? Unfinished { get; init; }

    /// <summary>The nests that have stock, row by row.</summary>
    [JsonIgnore]
    public IEnumerable<(int Row, int Column)> Full => Nests is { } nests
        ? nests.Select(n => (n[1], n[0]))
        : Enumerable.Range(0, First ?? (Columns * Rows)).Select(i => (i / Columns, i % Columns));
}
