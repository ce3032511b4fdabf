using Stockseat.Answers.Asking;

namespace Stockseat.Answers.Referring;

/// <summary>An ask about an answer, by its serial. The fixture is the answer's.</summary>
/// <param name="Caller">Who asks.</param>
/// <param name="Serial">The answer's serial.</param>
public abstract record AnswerAsk(Caller Caller, long Serial) : Ask(Caller, "")
{
    /// <summary>The fixtures whose answers this client may refer to; null: all.</summary>
    public IReadOnlySet<string>? Fixtures { get; init; }

    /// <summary>
    /// Whether it may refer only to what was served to this client, or to one of the same cell. Not so in a replay, which takes who may ask as given.
    /// </summary>
    public bool OwnAnswersOnly { get; init; }
}
