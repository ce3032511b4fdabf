using Stockseat.Answers.Asking;
using Stockseat.Answers.Referring;

namespace Stockseat.Answers.Still;

/// <summary>May an answer still be used?</summary>
public sealed record StillAsk(Caller Caller, long Serial) : AnswerAsk(Caller, Serial)
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "still";

    public override string Verb => VerbName;
}
