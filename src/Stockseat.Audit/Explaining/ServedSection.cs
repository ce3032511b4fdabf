using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using static Stockseat.Audit.Explaining.Steps;

namespace Stockseat.Audit.Explaining;

/// <summary>An answer's numbers as the controller got them.</summary>
internal static class ServedSection
{
    public const string Title = "As served";

    /// <summary>The most decimals, including the unit's power of ten, that a double can hold.</summary>
    private const int MostDecimals = 15;

    /// <summary>The section.</summary>
    public static WorkingSection Of(ServedBody answer)
    {
        var steps = new Steps(Title);
        if (Shape(answer) is not { } unit)
        {
            steps.Say(
                $"The answer's numbers were served with {Whole(answer.Decimals)} decimals in {answer.Unit ?? "m"}, or are not all recorded: this version "
                    + "can't show them as served.");
            return steps.Section;
        }

        steps.Given("decimals", $"the decimals of every number served; lengths in {unit.Name()}", One, answer.Decimals);
        foreach (var name in ServedBody.Numbers)
        {
            answer.TryNumber(name, out var value);
            Number(steps, name, value, answer.Decimals, answer.Exponent(name), up: false);
        }

        if (answer.Uncertainty is not { } sure)
        {
            steps.Say("The uncertainty was not known, so it was not served.");
            return steps.Section;
        }

        (string Name, double? Value)[] uncertainties =
            [("ualong", sure.Along), ("uacross", sure.Across), ("ualongworst", sure.AlongWorst), ("uacrossworst", sure.AcrossWorst)];
        foreach (var (name, value) in uncertainties)
        {
            if (value is { } known)
            {
                Number(steps, name, known, answer.Decimals, (int)unit, up: true);
            }
        }

        return steps.Section;
    }

    /// <summary>A number as it was served, in SI units; null when it can't be shown.</summary>
    public static (double Value, string Text)? Served(double value, int decimals, int exponent, bool up = false)
    {
        if (decimals < 0 || decimals + exponent > MostDecimals || !double.IsFinite(value) || !(Math.Abs(value) * Math.Pow(10, decimals + exponent) < 9e18))
        {
            return null;
        }

        var rounded = up ? FixedPoint.Above(value, decimals + exponent) : value;
        return (FixedPoint.Scale(rounded, decimals + exponent) / Math.Pow(10, decimals + exponent), FixedPoint.Text(rounded, decimals, exponent));
    }

    private static void Number(Steps steps, string name, double value, int decimals, int exponent, bool up)
    {
        if (Served(value, decimals, exponent, up) is { } served)
        {
            steps.Make(
                name, $"{name} was served as {served.Text}", up ? $"{name}, rounded up" : $"{name}, rounded half to even", name[0] == 'q' ? One : Metre,
                served.Value);
        }
        else
        {
            steps.Say($"{name} can't be shown as it was served.");
        }
    }

    private static ServedUnit? Shape(ServedBody answer) =>
        Three(answer.Position) is not null && Three(answer.ShiftBase) is not null
            && Three(answer.ShiftOrigin) is not null && answer.Orientation is { Length: 4 } && answer.Decimals is >= 0 and <= 12
            ? answer.Unit is null ? ServedUnit.Metre : ServedUnits.Find(answer.Unit)
            : null;
}
