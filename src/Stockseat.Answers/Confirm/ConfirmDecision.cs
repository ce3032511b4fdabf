using System.Globalization;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Referring;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Confirm;

/// <summary>Decides a confirmation: the numbers that were read back have to be those that were served.</summary>
internal static class ConfirmDecision
{
    public static EntryBody Decide(ConfirmAsk ask, Situation situation, Func<long, EntryBody?> find)
    {
        if (ReferredAnswer.Refused(ask, situation, find, out var found) is { } refused)
        {
            return Refuse(ask, refused, found);
        }

        var answer = found!;

        var serial = ask.Serial.ToString(CultureInfo.InvariantCulture);
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

        if (ask.Rules > 1 && ask.ReadBack.Count > 0 && ReadBack.Lacking(answer, ask.ReadBack.Keys) is { Count: > 0 } lacking)
        {
            return Refuse(ask, Refusal.Of(
                Reason.ReadbackMissing,
                $"{string.Join(" ", ask.ReadBack.Keys)} of answer {serial} {(ask.ReadBack.Count == 1 ? "was" : "were")} read back, and "
                    + $"{string.Join(" ", lacking)} "
                    + $"{(lacking.Count == 1 ? "is" : "are")} lacking, which {(lacking.Count == 1 ? "is" : "are")} not zero",
                ("missing", string.Join(" ", lacking))), answer);
        }

        return new ConfirmationBody
        {
            Numbers = ask.Rules == 1 ? null : ask.ReadBack.Count == 0 ? ConfirmationBody.None : ConfirmationBody.Full,
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
