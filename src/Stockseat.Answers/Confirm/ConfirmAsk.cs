using Stockseat.Answers.Asking;
using Stockseat.Answers.Referring;

namespace Stockseat.Answers.Confirm;

/// <summary>A controller says that it has received an answer. The fixture is that of the answer.</summary>
public sealed record ConfirmAsk(Caller Caller, long Serial) : AnswerAsk(Caller, Serial)
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "confirm";

    public override string Verb => VerbName;

    /// <summary>The numbers that were read back, by their names in lines.</summary>
    public IReadOnlyDictionary<string, string> ReadBack { get; init; } = new Dictionary<string, string>();
}
