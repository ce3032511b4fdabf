using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Locate;

/// <summary>An answer to a locate.</summary>
public sealed record AnswerBody : ServedBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Answer;
}
