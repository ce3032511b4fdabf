using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Verbs;

/// <summary>
/// Decides an ask: a pure function of the ask, the situation and the instant. Its result is the entry; the writer adds the serial and the instant. The service
/// and a replay call the same code.
/// </summary>
public static class Decision
{
    /// <summary>Decides.</summary>
    /// <param name="ask">The ask.</param>
    /// <param name="situation">The situation.</param>
    /// <param name="at">The instant.</param>
    /// <param name="findAnswer">Finds an answer by its serial; null when that serial is not an answer.</param>
    public static EntryBody Decide(Ask ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> findAnswer) =>
        RegisteredVerbs.Table.Decide(ask, situation, at, findAnswer);
}
