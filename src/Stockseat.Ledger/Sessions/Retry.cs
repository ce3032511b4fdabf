using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;

namespace Stockseat.Ledger.Sessions;

/// <summary>The outcome of an ask with a known request id.</summary>
internal static class Retry
{
    /// <summary>
    /// The first outcome, when the same ask comes again and that outcome still holds. A controller that always uses one id must not get the numbers of last
    /// week, nor a hold that was released since. Otherwise the outcome is a refusal, with an entry of its own; an ask that would be refused as a new one too is
    /// refused for that reason.
    /// </summary>
    /// <param name="ask">The ask.</param>
    /// <param name="first">The first outcome of the id.</param>
    /// <param name="now">The outcome when it is decided as a new ask.</param>
    /// <param name="situation">The situation now.</param>
    /// <param name="heldSince">Whether, after the release in an entry, the same name held the fixture again.</param>
    public static EntryBody Outcome(Ask ask, EntryBody first, EntryBody now, Situation situation, Func<EntryBody, bool> heldSince)
    {
        if (!RegisteredVerbs.Table.IsSame(ask, first))
        {
            // A refused push voids the measurement, unless its client may not push or the fixture does not exist.
            return now is RefusalBody { Number: (int)Reason.NotPermitted or (int)Reason.FixtureUnknown }
                ? WithoutId(now, ask)
                : Refuse(ask, first, $"request id {ask.Caller.Request} belongs to another request (entry {first.Serial}); use a new id");
        }

        if (ask.Denied is not null)
        {
            return WithoutId(now, ask);
        }

        return RegisteredVerbs.Table.Lapsed(first, new(situation, now, heldSince)) is not { } lapsed ? first
            : now is RefusalBody ? WithoutId(now, ask)
            : Refuse(ask, first,
                $"request id {ask.Caller.Request} belongs to {RegisteredVerbs.Table.Called(first)}, which no longer holds: {lapsed}; use a new id");
    }

    private static EntryBody Refuse(Ask ask, EntryBody first, string what) =>
        WithoutId(ask.Refuse(new Refusal(Reason.ValueMalformed, what)) with { RetryOf = first.Serial }, ask);

    /// <summary>The id still belongs to the first request.</summary>
    private static EntryBody WithoutId(EntryBody body, Ask ask)
    {
        (body.Client, body.Cell, body.Address, body.Tag, _) = ask.Caller;
        body.Request = null;
        return body;
    }
}
