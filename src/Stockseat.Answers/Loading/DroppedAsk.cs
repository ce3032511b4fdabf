using Stockseat.Answers.Asking;
using Stockseat.Answers.Referring;

namespace Stockseat.Answers.Loading;

/// <summary>The move of an answer of a load was not carried out: its nest is as it was.</summary>
public sealed record DroppedAsk(Caller Caller, long Serial) : AnswerAsk(Caller, Serial)
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "dropped";

    public override string Verb => VerbName;

    /// <summary>Who says so; null: the controller.</summary>
    public string? By { get; init; }
}
