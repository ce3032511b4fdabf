using Stockseat.Answers.Asking;
using Stockseat.Answers.Referring;

namespace Stockseat.Answers.Done;

/// <summary>The move of an answer was carried out and went well.</summary>
public sealed record DoneAsk(Caller Caller, long Serial) : AnswerAsk(Caller, Serial)
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "done";

    public override string Verb => VerbName;

    /// <summary>Who says so; null: the controller.</summary>
    public string? By { get; init; }
}
