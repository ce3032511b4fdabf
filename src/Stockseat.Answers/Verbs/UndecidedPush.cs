using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Verbs;

/// <summary>
/// A push that is refused before anything could be decided, since the service was too busy or the ledger could not be written: the stock has another diameter
/// now than the measurement that stands says, so an entry that comes later voids it. The same goes for the word that the nests were emptied.
/// </summary>
public static class UndecidedPush
{
    /// <summary>Whether an ask makes the measurement doubtful when it can't be decided.</summary>
    public static bool Matters(Ask ask) => ask.Denied is null && ask.Fixture.Length > 0 && RegisteredVerbs.Table.VerbOf(ask).NotTaken(ask) is not null;

    /// <summary>The refusal as its sender is told it: nobody at the gauge must take the push for done.</summary>
    public static Refusal Say(Ask ask, Refusal refusal) => refusal.And($"; {RegisteredVerbs.Table.VerbOf(ask).NotTaken(ask)}") with
    {
        Limits = new Dictionary<string, string>(refusal.Limits ?? new Dictionary<string, string>()) { ["taken"] = "no" },
    };

    /// <summary>The entry that voids the measurement. The request id stays free: what is sent again with it is decided then.</summary>
    /// <param name="ask">The push, or the word that the nests were emptied.</param>
    /// <param name="refusal">Why it was refused.</param>
    /// <param name="situation">What holds now.</param>
    public static EntryBody Entry(Ask ask, Refusal refusal, Situation situation)
    {
        var body = RegisteredVerbs.Table.VerbOf(ask).Undecided(ask, refusal, situation);
        body = body is RefusalBody refused ? refused.In(ask.Shown) : body;
        (body.Client, body.Cell, body.Address, body.Tag, _) = ask.Caller;
        return body;
    }
}
