using System.Globalization;
using Stockseat.Answers.Advising;
using Stockseat.Answers.Cautions;
using Stockseat.Audit.Showing;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Seating.Quantities;
using Stockseat.V1;

namespace Stockseat.Cli.Output;

/// <summary>A recheck: in the unit of the display for people, in metres for machines.</summary>
internal static class RecheckView
{
    /// <summary>A recheck that was just recorded: predicted and found, the verdict, what to do.</summary>
    public static void Print(Recheck r, LengthUnit unit)
    {
        Plain.Line($"entry {r.Serial}: {r.Fixture} revision {r.Revision}, master {unit.Text(r.MasterMetres)} in nest {r.Column},{r.Row}");
        Plain.Table(["in base", $"x [{unit}]", $"y [{unit}]", $"z [{unit}]"],
            [Row("predicted", r.PredictedMetres, unit), Row("found", r.FoundMetres, unit), Row("miss", r.MissBaseMetres, unit)]);
        Plain.Line(
            $"miss: {unit.Signed(r.Miss.AlongMetres)} {unit} along the seat axis, {unit.Signed(r.Miss.AcrossMetres)} {unit} across it, "
                + $"{unit.Signed(r.Miss.OutOfPlanMetres)} {unit} out of the plan; {unit.FixedText(Length(r))} in all");
        Plain.Line(r.Expected is { } u
            ? $"expected: within U (k = 2) of {unit.Up(u.AlongMetres)} {unit} along, {unit.Up(u.AcrossMetres)} {unit} across"
            : $"expected: not known, since revision {r.Revision} states "
                + (r.HasMasterWithinMetres ? "no uncertainty"
                    : "no uncertainty.askedDiameter; state with --within how well the master's diameter is known"));
        foreach (var line in Verdict(r, unit))
        {
            Plain.Line(line);
        }

        Plain.Line(Caution.Short("A recheck", Caution.Touching));
    }

    /// <summary>The length and the direction of a miss: "0.612 mm (+0.6 along, -0.12 across, 0 out of the plan)".</summary>
    public static string Told(Recheck r, LengthUnit unit) =>
        $"{unit.FixedText(Length(r))} ({unit.Signed(r.Miss.AlongMetres)} along, {unit.Signed(r.Miss.AcrossMetres)} across, "
            + $"{unit.Signed(r.Miss.OutOfPlanMetres)} out of the plan)";

    /// <summary>The rechecks as a table, and the control limits of each revision.</summary>
    public static void Print(IReadOnlyList<Recheck> rechecks, IReadOnlyList<TrendSection> sections, Display display)
    {
        var (unit, times) = (display.Length, display.Times);
        Plain.Table(
            [
                "serial", $"at ({times.Name})", "rev", "nest", $"master [{unit}]", $"along [{unit}]", $"across [{unit}]", $"out of plan [{unit}]", "verdict",
            ],
            sections.SelectMany(s => rechecks.Skip(s.First).Take(s.Count).Select(r => (IReadOnlyList<string>)
            [
                Whole(r.Serial), times.Of(r.At), Whole(r.Revision), $"{r.Column},{r.Row}", unit.Short(r.MasterMetres),
                unit.Signed(r.Miss.AlongMetres), unit.Signed(r.Miss.AcrossMetres), unit.Signed(r.Miss.OutOfPlanMetres),
                Name(r.Verdict) + (r.RefusesAsks ? ", refuses asks" : "") + (
                    Beyond(r, s) is { Count: > 0 } beyond ? $", beyond control limits {string.Join(" and ", beyond)}" : ""),
            ])));
        foreach (var s in sections)
        {
            Plain.Line($"revision {s.Revision}, {Counted(s.Count)}: {(s is { Along: { } along, Across: { } across }
                ? $"along {Limits(along, unit)}; across {Limits(across, unit)}"
                : $"no control limits yet: they need {IndividualsLimits.Enough} rechecks")}");
        }

        Plain.Line(Caution.Short("A recheck", Caution.Touching));
    }

    /// <summary>The directions in which a recheck is beyond the control limits of its revision.</summary>
    public static List<string> Beyond(Recheck r, TrendSection section) =>
    [
        .. section.Along?.Beyond(r.Miss.AlongMetres) == true ? ["along"] : (string[])[],
        .. section.Across?.Beyond(r.Miss.AcrossMetres) == true ? ["across"] : (string[])[],
    ];

    public static string Counted(int rechecks) => rechecks == 1 ? "1 recheck" : $"{Whole(rechecks)} rechecks";

    public static RecheckShape Of(Recheck r) => new(
        r.Serial, r.At, r.Fixture, r.Revision, r.Digest, r.By, r.Note.Length > 0 ? r.Note : null, "m", r.MasterMetres,
        r.HasMasterWithinMetres ? r.MasterWithinMetres : null, [r.Column, r.Row], Three(r.PredictedMetres), Three(r.FoundMetres), Three(r.MissBaseMetres),
        new(r.Miss.AlongMetres, r.Miss.AcrossMetres, r.Miss.OutOfPlanMetres), r.Expected is { } u ? BudgetView.Of(u) : null,
        r.HasLimitMetres ? r.LimitMetres : null, Name(r.Verdict), r.RefusesAsks);

    private static IEnumerable<string> Verdict(Recheck r, LengthUnit unit)
    {
        var by = r.HasLimitMetres ? $"the limit for the length of the miss, limits.recheck, is {unit.Text(r.LimitMetres)}"
            : "limits.recheck is not stated, so the miss along and across is compared with what is expected";
        if (r.Verdict == RecheckVerdict.NotJudged)
        {
            yield return $"not judged: revision {r.Revision} states no limits.recheck, and the expected uncertainty is not known; state one of them in the "
                + $"next revision";
            yield break;
        }

        if (r.Verdict == RecheckVerdict.Passed)
        {
            yield return $"passed: {by}";
            yield break;
        }

        yield return $"MISSED: {by}";
        yield return r.RefusesAsks
            ? "Asks are refused (recheck-failed) until another revision is adopted; a later recheck that passes does not change that."
            : $"Asks are still answered; stockseat fixture list shows the miss until another revision is adopted. In doubt: stockseat fixture hold {r.Fixture} "
            + "--by WHO --why WHY.";
        yield return "Clean the nest and the master, and recheck. If it misses again, calibrate the fixture and adopt the new revision. If a value was "
            + "mistyped, "
            + "publish the same values under the next number and adopt that.";
    }

    private static string Name(RecheckVerdict verdict) => verdict switch
    {
        RecheckVerdict.Passed => "passed",
        RecheckVerdict.Missed => "missed",
        RecheckVerdict.NotJudged => "not judged",
        _ => "unknown",
    };

    private static string Limits(IndividualsLimits limits, LengthUnit unit) =>
        $"mean {unit.Signed(limits.Mean)}, control limits {unit.Signed(limits.Lower)} to {unit.Signed(limits.Upper)} {unit}";

    private static double Length(Recheck r) =>
        Math.Sqrt((r.MissBaseMetres.X * r.MissBaseMetres.X) + (r.MissBaseMetres.Y * r.MissBaseMetres.Y) + (r.MissBaseMetres.Z * r.MissBaseMetres.Z));

    private static IReadOnlyList<string> Row(string what, Vector v, LengthUnit unit) => [what, unit.Fixed(v.X), unit.Fixed(v.Y), unit.Fixed(v.Z)];

    private static double[] Three(Vector v) => [v.X, v.Y, v.Z];

    private static string Whole(long number) => number.ToString(CultureInfo.InvariantCulture);
}
