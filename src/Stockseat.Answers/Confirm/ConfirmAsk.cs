using Stockseat.Answers.Asking;
using Stockseat.Answers.Referring;

namespace Stockseat.Answers.Confirm;

/// <summary>A controller has received an answer. The fixture is the answer's.</summary>
public sealed record ConfirmAsk(Caller Caller, long Serial) : AnswerAsk(Caller, Serial)
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "confirm";

    public override string Verb => VerbName;

    /// <summary>Numbers read back, by the names that they have in lines.</summary>
    public IReadOnlyDictionary<string, string> ReadBack { get; init; } = new Dictionary<string, string>();
}
