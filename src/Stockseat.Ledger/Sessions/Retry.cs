using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;

namespace Stockseat.Ledger.Sessions;

/// <summary>What an ask with a known request id gets.</summary>
internal static class Retry
{
    /// <summary>
    /// The first outcome, when it is the first ask again and that outcome still holds: a controller that uses one id for ever must not get the numbers of
    /// last week, nor be told that a fixture is held which was released. Else a refusal, which is an entry of its own: what would be refused as a new
    /// ask too is refused for that.
    /// </summary>
    /// <param name="ask">The ask.</param>
    /// <param name="first">What the id led to.</param>
    /// <param name="now">What it comes to when it is decided as a new one.</param>
    /// <param name="situation">What holds now.</param>
    /// <param name="heldSince">Whether whose hold a release ended held the fixture again after it.</param>
    public static EntryBody Outcome(Ask ask, EntryBody first, EntryBody now, Situation situation, Func<EntryBody, bool> heldSince)
    {
        if (!RegisteredVerbs.Table.IsSame(ask, first))
        {
            // A push that is refused voids the measurement; not by who may not push, nor of a fixture that there is not.
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
                $"request id {ask.Caller.Request} belongs to {RegisteredVerbs.Table.Called(first)}, which holds no more: {lapsed}; use a new id");
    }

    private static EntryBody Refuse(Ask ask, EntryBody first, string what) =>
        WithoutId(ask.Refuse(new Refusal(Reason.ValueMalformed, what)) with { RetryOf = first.Serial }, ask);

    /// <summary>The id stays the first request's.</summary>
    private static EntryBody WithoutId(EntryBody body, Ask ask)
    {
        (body.Client, body.Cell, body.Address, body.Tag, _) = ask.Caller;
        body.Request = null;
        return body;
    }
}
