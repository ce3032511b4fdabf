using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;

namespace Stockseat.Service.Pages;

/// <summary>What a controller would be told if it asked for a pick at nest 0,0 now: decided by the code that answers, and recorded nowhere.</summary>
public static class NextPick
{
    /// <summary>The answer, or the refusal.</summary>
    /// <param name="situation">The situation.</param>
    /// <param name="fixture">The fixture.</param>
    /// <param name="at">The instant.</param>
    /// <param name="provingRequired">Whether the configuration keeps answers first until rechecks have proven the revision.</param>
    public static EntryBody Of(Situation situation, string fixture, DateTimeOffset at, bool provingRequired)
    {
        var nobody = new Caller(null, null, null);
        return Decision.Decide(new LocateAsk(nobody, fixture) { ProvingRequired = provingRequired }, situation, at, _ => null);
    }
}
