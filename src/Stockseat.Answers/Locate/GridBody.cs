using System.Diagnostics.CodeAnalysis;
using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Locate;

/// <summary>Where all nests are, at once: the answer for nest 0,0, with a digest of the positions of all nests. Nothing rests on it.</summary>
public sealed record GridBody : ServedBody
{
    /// <summary>One that is read.</summary>
    public GridBody()
    {
    }

    /// <summary>The positions of all nests, with what an answer for nest 0,0 would be.</summary>
    [SetsRequiredMembers]
    internal GridBody(AnswerBody answer, int count, string digest)
        : base(answer) => (Count, PositionsDigest) = (count, digest);

    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Grid;

    /// <summary>How many nests there are.</summary>
    public required int Count { get; init; }

    /// <summary>SHA-256 of the positions, as <see cref="GridPositions"/> writes them, in hexadecimal.</summary>
    public required string PositionsDigest { get; init; }
}
