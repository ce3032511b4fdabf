using Stockseat.Answers.Asking;

namespace Stockseat.Answers.Confirm;

/// <summary>A controller has applied an answer. The fixture is the answer's.</summary>
public sealed record ConfirmAsk(Caller Caller, long Serial) : Ask(Caller, "")
{
    /// <summary>The verb's name.</summary>
    public const string VerbName = "confirm";

    public override string Verb => VerbName;

    /// <summary>Numbers read back, by the names that they have in lines.</summary>
    public IReadOnlyDictionary<string, string> ReadBack { get; init; } = new Dictionary<string, string>();

    /// <summary>The fixtures whose answers this client may confirm; null: all.</summary>
    public IReadOnlySet<string>? Fixtures { get; init; }

    /// <summary>
    /// Whether it may confirm only what was served to this client, or to one of the same cell. Not so in a replay, which takes who may ask as given.
    /// </summary>
    public bool OwnAnswersOnly { get; init; }
}
