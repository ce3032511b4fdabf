using System.Globalization;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Referring;

/// <summary>The answer that an ask refers to, when its caller may.</summary>
internal static class ReferredAnswer
{
    /// <summary>The limit that names whom another client's answer was served to; a replay knows that refusal by it.</summary>
    private const string ServedTo = "served_to";

    /// <summary>Why the ask is refused; null when the answer is there and the caller may refer to it.</summary>
    /// <param name="ask">The ask.</param>
    /// <param name="situation">What holds.</param>
    /// <param name="find">Finds an answer by its serial.</param>
    /// <param name="answer">The answer; null when there is none.</param>
    public static Refusal? Refused(AnswerAsk ask, Situation situation, Func<long, EntryBody?> find, out AnswerBody? answer)
    {
        answer = null;
        if (ask.Denied is { } denied)
        {
            return denied;
        }

        var serial = ask.Serial.ToString(CultureInfo.InvariantCulture);
        var found = find(ask.Serial) ?? situation.Unfinished(ask.Serial);
        answer = found as AnswerBody;
        if (found is TrialBody)
        {
            return Refusal.Of(Reason.SerialUnknown, $"entry {serial} is a trial, which nothing can rest on");
        }

        if (answer is null)
        {
            return Refusal.Of(Reason.SerialUnknown, ask.Serial > 0 && ask.Serial < situation.Begins
                ? $"entry {serial} can't be found: it is in an older ledger, which is closed, and this ledger begins with entry "
                    + $"{situation.Begins.ToString(CultureInfo.InvariantCulture)}"
                : $"entry {serial} is not an answer of this ledger");
        }

        return ask.Fixtures?.Contains(answer.Fixture!) == false
            ? Refusal.Of(Reason.NotPermitted, $"answer {serial} is of fixture {answer.Fixture}, which this client may not use")
            : ask.OwnAnswersOnly && !IsOwn(ask.Caller, answer) ? Foreign(ask.Caller, answer)
            : null;
    }

    /// <summary>A refusal with what is known of the answer.</summary>
    public static RefusalBody Refuse(AnswerAsk ask, Refusal refusal, AnswerBody? answer) => ask.Refuse(refusal) with
    {
        Fixture = answer?.Fixture,
        Revision = answer?.Revision,
        Digest = answer?.Digest,
        Answer = ask.Serial,
    };

    /// <summary>Whether a refusal says that the answer was served to another client.</summary>
    public static bool IsOfAnother(RefusalBody b) => b is { Number: (int)Reason.NotPermitted, Limits: { } limits } && limits.ContainsKey(ServedTo);

    /// <summary>The fixtures with which a refusal comes out again; null: it does not hang on them.</summary>
    public static IReadOnlySet<string>? FixturesOf(RefusalBody b) =>
        b is { Number: (int)Reason.NotPermitted, Fixture: not null } && !IsOfAnother(b) ? new HashSet<string>() : null;

    /// <summary>Whether an answer was served to this client, or to one of the same cell: a confirmation says that its controller holds the numbers.</summary>
    private static bool IsOwn(Caller caller, AnswerBody answer) =>
        caller.Client == answer.Client || (caller.Cell is not null && caller.Cell == answer.Cell);

    private static Refusal Foreign(Caller caller, AnswerBody answer)
    {
        var servedTo = answer.Client ?? "unknown";
        return new(
            Reason.NotPermitted,
            $"answer {answer.Serial.ToString(CultureInfo.InvariantCulture)} was served to client {servedTo} of {Of(answer.Cell)}, "
            + $"and client {caller.Client ?? "unknown"} is of {Of(caller.Cell)}; confirm it as client {servedTo}, or give both clients the same Cell",
            new Dictionary<string, string> { [ServedTo] = servedTo });
    }

    private static string Of(string? cell) => cell is null ? "no cell" : $"cell {Refusal.Shown(cell)}";
}
