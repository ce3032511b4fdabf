using System.Globalization;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using static Stockseat.Audit.Explaining.Steps;

namespace Stockseat.Audit.Explaining;

/// <summary>A confirmation, accepted or refused: what was read back, compared with what was served.</summary>
internal static class ConfirmationWorking
{
    public const string Title = "Numbers read back";

    /// <summary>The sections of a confirmation.</summary>
    public static IEnumerable<WorkingSection> Of(ConfirmationBody body, AnswerBody? answer)
    {
        var steps = new Steps(InputSection.Title);
        InputSection.Entry(steps, body);
        steps.Given("answer", "the entry that it confirms", One, body.Confirms);
        if (Three(body.ShiftBase) is { } shift)
        {
            steps.Given("b", $"the shift in base that it confirms for a {InputSection.Said(body.Purpose)} (x, y, z)", Metre, shift);
        }
        else
        {
            steps.Say("The shift that it confirms is not recorded as three numbers.");
        }

        yield return steps.Section;
        yield return ReadBack(body.ReadBack, body.Confirms, answer);
    }

    /// <summary>The sections of a confirmation that was refused.</summary>
    public static IEnumerable<WorkingSection> Of(RefusalBody body, AnswerBody? answer)
    {
        var steps = new Steps(InputSection.Title);
        InputSection.Entry(steps, body);
        if (body.Confirms is { } serial)
        {
            steps.Given("answer", "the entry that it should confirm", One, serial);
        }

        yield return steps.Section;
        yield return ReadBack(body.ReadBack, body.Confirms, answer);
        yield return RefusedSection.Begin(body).Section;
    }

    private static WorkingSection ReadBack(IReadOnlyDictionary<string, string>? read, long? confirms, AnswerBody? answer)
    {
        var steps = new Steps(Title);
        if (read is not { Count: > 0 })
        {
            steps.Say("No number was read back.");
            return steps.Section;
        }

        if (answer is null || answer.Serial != confirms)
        {
            steps.Say($"Answer {(confirms is { } serial ? Whole(serial) : "not recorded")} was not found: what it served can't be compared.");
        }

        foreach (var (name, text) in read)
        {
            Number(steps, name, text, answer?.Serial == confirms ? answer : null);
        }

        return steps.Section;
    }

    private static void Number(Steps steps, string name, string? text, AnswerBody? answer)
    {
        if (text is null || !FixedPoint.IsPlain(text))
        {
            steps.Say($"{name} was read back as {InputSection.Said(text)}, which is not a plain number.");
            return;
        }

        if (answer is null || !Has(answer) || !answer.TryNumber(name, out var value) || (answer.Unit is not null && ServedUnits.Find(answer.Unit) is null)
            || ServedSection.Served(value, answer.Decimals, answer.Exponent(name)) is not { } served)
        {
            steps.Say($"{name} was read back as {text}.");
            return;
        }

        var unit = name[0] == 'q' ? One : Metre;
        var back = double.Parse(text, CultureInfo.InvariantCulture) / Math.Pow(10, answer.Exponent(name));
        steps.Given(name, $"{name} was served as {served.Text}", unit, served.Value);
        steps.Given($"{name} read", $"{name} was read back as {text}", unit, back);
        FixedPoint.TryCompare(text, value, answer.Decimals, out var same, answer.Exponent(name));
        steps.Make(
            $"{name} read - {name}", $"{(same ? "the same" : "not the same")} at {Whole(answer.Decimals)} decimals of "
                + $"{(name[0] == 'q' ? One : answer.ServedIn.Name())}", $"{name} read - {name}", unit, back - served.Value);
    }

    private static bool Has(AnswerBody answer) => Three(answer.Position) is not null
        && Three(answer.ShiftBase) is not null && Three(answer.ShiftOrigin) is not null && answer.Orientation is { Length: 4 };
}
