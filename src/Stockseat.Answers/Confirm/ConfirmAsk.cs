using Stockseat.Answers.Asking;

namespace Stockseat.Answers.Confirm;

/// <summary>A controller says that it has applied an answer. The fixture is that of the answer.</summary>
public sealed record ConfirmAsk(Caller Caller, long Serial) : Ask(Caller, "")
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "confirm";

    public override string Verb => VerbName;

    /// <summary>The numbers that were read back, by their names in lines.</summary>
    public IReadOnlyDictionary<string, string> ReadBack { get; init; } = new Dictionary<string, string>();

    /// <summary>The fixtures whose answers this client may confirm; null: all fixtures.</summary>
    public IReadOnlySet<string>? Fixtures { get; init; }

    /// <summary>
    /// Whether the client may confirm only answers that were served to it, or to a client of the same cell. False in a replay, where who may ask is taken as
    /// given.
    /// </summary>
    public bool OwnAnswersOnly { get; init; }
}
