using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Verbs;

/// <summary>
/// A push that is refused before anything could be decided, because the service was too busy or the ledger could not be written. The stock now has another
/// diameter than the measurement says, so an entry that is written later voids the measurement. The same holds for an <c>emptied</c>.
/// </summary>
public static class UndecidedPush
{
    /// <summary>Whether an ask that can't be decided makes the measurement doubtful.</summary>
    public static bool Matters(Ask ask) => ask.Denied is null && ask.Fixture.Length > 0 && RegisteredVerbs.Table.VerbOf(ask).NotTaken(ask) is not null;

    /// <summary>The refusal as its sender gets it: nobody at the gauge must believe that the push was taken.</summary>
    public static Refusal Say(Ask ask, Refusal refusal) => refusal.And($"; {RegisteredVerbs.Table.VerbOf(ask).NotTaken(ask)}") with
    {
        Limits = new Dictionary<string, string>(refusal.Limits ?? new Dictionary<string, string>()) { ["taken"] = "no" },
    };

    /// <summary>The entry that voids the measurement. The request id stays free: when the push is sent again with it, it is decided then.</summary>
    /// <param name="ask">The push or the <c>emptied</c>.</param>
    /// <param name="refusal">Why it was refused.</param>
    /// <param name="situation">The situation now.</param>
    public static EntryBody Entry(Ask ask, Refusal refusal, Situation situation)
    {
        var body = RegisteredVerbs.Table.VerbOf(ask).Undecided(ask, refusal, situation);
        body = body is RefusalBody refused ? refused.In(ask.Shown) : body;
        (ask.Caller with { Request = null }).WriteTo(body);
        return body;
    }
}
