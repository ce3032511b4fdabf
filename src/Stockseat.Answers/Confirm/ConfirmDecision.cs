using System.Globalization;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Confirm;

/// <summary>Decides a confirmation: the numbers that were read back have to be those that were served.</summary>
internal static class ConfirmDecision
{
    /// <summary>The limit that names the client to which another client's answer was served; a replay recognizes the refusal by it.</summary>
    internal const string ServedTo = "served_to";

    public static EntryBody Decide(ConfirmAsk ask, Situation situation, Func<long, EntryBody?> find)
    {
        var serial = ask.Serial.ToString(CultureInfo.InvariantCulture);
        if (ask.Denied is { } denied)
        {
            return Refuse(ask, denied);
        }

        if (find(ask.Serial) is not AnswerBody answer)
        {
            return Refuse(ask, Refusal.Of(Reason.SerialUnknown, ask.Serial > 0 && ask.Serial < situation.Begins
                ? $"entry {serial} can't be found: it is in an older ledger, which is closed, and this ledger begins with entry "
                    + $"{situation.Begins.ToString(CultureInfo.InvariantCulture)}"
                : $"entry {serial} is not an answer of this ledger"));
        }

        if (ask.Fixtures?.Contains(answer.Fixture!) == false)
        {
            return Refuse(ask, Refusal.Of(Reason.NotPermitted, $"answer {serial} is of fixture {answer.Fixture}, which this client may not use"), answer);
        }

        if (ask.OwnAnswersOnly && !IsOwn(ask.Caller, answer))
        {
            return Refuse(ask, Foreign(ask.Caller, answer), answer);
        }

        foreach (var (name, text) in ask.ReadBack)
        {
            if (!answer.TryNumber(name, out var served))
            {
                return Refuse(ask, Refusal.Of(Reason.KeyUnknown, $"answer {serial} has no number {Refusal.Shown(name)}; it has "
                    + $"{string.Join(' ', AnswerBody.Numbers)}"), answer);
            }

            if (!FixedPoint.TryCompare(text, served, answer.Decimals, out var same, answer.Exponent(name)))
            {
                return Refuse(ask, Refusal.Of(Reason.ValueMalformed, $"{name} was read back as '{Refusal.Shown(text)}'; a plain number without unit was "
                    + $"expected{Served(answer, name)}"), answer);
            }

            if (!same)
            {
                var expected = FixedPoint.Text(served, answer.Decimals, answer.Exponent(name));
                return Refuse(ask, Refusal.Of(
                    Reason.ReadbackDiffers, $"{name} was read back as {text}{Unit(answer, name)}, which is not what answer {serial} served",
                    ("name", name), ("served", expected), ("read", text)), answer);
            }
        }

        return new ConfirmationBody
        {
            Fixture = answer.Fixture,
            Revision = answer.Revision,
            Digest = answer.Digest,
            Confirms = answer.Serial,
            Purpose = answer.Purpose,
            ShiftBase = answer.ShiftBase,
            ReadBack = ask.ReadBack.Count == 0 ? null : ask.ReadBack,
            Other = situation.Find(answer.Fixture!)?.Confirmed(answer.Purpose == "place" ? Purpose.Pick : Purpose.Place)?.Serial ?? 0,
        };
    }

    /// <summary>Whether an answer was served to this client, or to one of the same cell: a confirmation says that the controller holds the numbers.</summary>
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

    /// <summary>The unit of a number after it: a person who reads millimetres elsewhere sees that this one is in metres.</summary>
    private static string Unit(AnswerBody answer, string name) => name[0] == 'q' ? "" : $" {answer.ServedIn.Name()}";

    private static string Served(AnswerBody answer, string name) => name[0] == 'q' ? "" : $", in {answer.ServedIn.Name()} as it was served";

    private static RefusalBody Refuse(ConfirmAsk ask, Refusal refusal, AnswerBody? answer = null) => ask.Refuse(refusal) with
    {
        Fixture = answer?.Fixture,
        Revision = answer?.Revision,
        Digest = answer?.Digest,
        Confirms = ask.Serial,
        ReadBack = ask.ReadBack.Count == 0 ? null : ask.ReadBack,
    };
}
