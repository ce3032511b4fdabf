using System.Diagnostics.CodeAnalysis;
using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Locate;

/// <summary>A trial: what would have been answered. Nothing rests on it.</summary>
public sealed record TrialBody : ServedBody
{
    /// <summary>One that is read.</summary>
    public TrialBody()
    {
    }

    /// <summary>What an answer would have been.</summary>
    [SetsRequiredMembers]
    public TrialBody(AnswerBody answer)
        : base(answer)
    {
    }

    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Trial;
}
