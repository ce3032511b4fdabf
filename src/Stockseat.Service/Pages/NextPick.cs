using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;

namespace Stockseat.Service.Pages;

/// <summary>What a controller would be told if it asked for a pick now: decided by the code that answers, and recorded nowhere.</summary>
public static class NextPick
{
    /// <summary>The answer, or the refusal.</summary>
    /// <param name="situation">The situation.</param>
    /// <param name="fixture">The fixture.</param>
    /// <param name="at">The instant.</param>
    /// <param name="provingRequired">Whether the configuration keeps answers first until rechecks have proven the revision.</param>
    /// <param name="nest">A nest of the load, as <c>next</c> gives it when its turn comes; null: nest 0,0, as <c>locate</c> gives it.</param>
    public static EntryBody Of(Situation situation, string fixture, DateTimeOffset at, bool provingRequired, int[]? nest = null)
    {
        var ask = new LocateAsk(new Caller(null, null, null), fixture) { ProvingRequired = provingRequired };
        return Decision.Decide(nest is null ? ask : ask with { IsNext = true, IsTrial = true, After = Before(nest) }, situation, at, _ => null);
    }

    /// <summary>A place in the order of the nests just before one: nests are taken row by row.</summary>
    private static int[] Before(int[] nest) => [nest[0] - 1, nest[1]];
}
