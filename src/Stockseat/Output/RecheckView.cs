using System.Globalization;
using Stockseat.Answers.Advising;
using Stockseat.Answers.Cautions;
using Stockseat.Answers.Entries;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Fixtures.Revisions;
using Stockseat.V1;

namespace Stockseat.Cli.Output;

/// <summary>A recheck: in millimetres for people, in metres for machines.</summary>
internal static class RecheckView
{
    /// <summary>A recheck that was just recorded: predicted and found, the verdict, what to do.</summary>
    public static void Print(Recheck r)
    {
        Plain.Line($"entry {r.Serial}: {r.Fixture} revision {r.Revision}, master {Wording.Millimetres(r.MasterMetres)} mm in nest {r.Column},{r.Row}");
        Plain.Table(["in base", "x [m]", "y [m]", "z [m]"], [Row("predicted", r.PredictedMetres), Row("found", r.FoundMetres), Row("miss", r.MissBaseMetres)]);
        Plain.Line(
            $"miss: {Signed(r.Miss.AlongMetres)} mm along the seat axis, {Signed(r.Miss.AcrossMetres)} mm across it, {Signed(r.Miss.OutOfPlanMetres)} mm out "
                + $"of the plan; {Wording.FixedMillimetres(Length(r))} mm in all");
        Plain.Line(r.Expected is { } u
            ? $"expected: within U (k = 2) of {Up(u.AlongMetres)} mm along, {Up(u.AcrossMetres)} mm across"
            : $"expected: not known, since revision {r.Revision} states "
                + (r.HasMasterWithinMetres ? "no uncertainty"
                    : "no uncertainty.askedDiameter; state with --within how well the master's diameter is known"));
        foreach (var line in Verdict(r))
        {
            Plain.Line(line);
        }

        Plain.Line(Caution.Short("A recheck", Caution.Touching));
    }

    /// <summary>The length and the direction of a miss: "0.612 mm (+0.6 along, -0.12 across, 0 out of the plan)".</summary>
    public static string Told(Recheck r) =>
        $"{Wording.FixedMillimetres(Length(r))} mm ({Signed(r.Miss.AlongMetres)} along, {Signed(r.Miss.AcrossMetres)} across, "
            + $"{Signed(r.Miss.OutOfPlanMetres)} out of the plan)";

    /// <summary>The rechecks as a table, and the control limits of each revision.</summary>
    public static void Print(IReadOnlyList<Recheck> rechecks, IReadOnlyList<TrendSection> sections)
    {
        Plain.Table(
            ["serial", "at (UTC)", "rev", "nest", "master [mm]", "along [mm]", "across [mm]", "out of plan [mm]", "verdict"],
            sections.SelectMany(s => rechecks.Skip(s.First).Take(s.Count).Select(r => (IReadOnlyList<string>)
            [
                Whole(r.Serial), r.At, Whole(r.Revision), $"{r.Column},{r.Row}", Wording.Millimetres(r.MasterMetres),
                Signed(r.Miss.AlongMetres), Signed(r.Miss.AcrossMetres), Signed(r.Miss.OutOfPlanMetres),
                Name(r.Verdict) + (r.RefusesAsks ? ", refuses asks" : "") + (
                    Beyond(r, s) is { Count: > 0 } beyond ? $", beyond control limits {string.Join(" and ", beyond)}" : ""),
            ])));
        foreach (var s in sections)
        {
            Plain.Line($"revision {s.Revision}, {Counted(s.Count)}: {(s is { Along: { } along, Across: { } across }
                ? $"along {Limits(along)}; across {Limits(across)}"
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

    private static IEnumerable<string> Verdict(Recheck r)
    {
        var by = r.HasLimitMetres ? $"the limit for the length of the miss, limits.recheck, is {Wording.Millimetres(r.LimitMetres)} mm"
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

    private static string Limits(IndividualsLimits limits) => $"mean {Signed(limits.Mean)}, control limits {Signed(limits.Lower)} to {Signed(limits.Upper)} mm";

    private static double Length(Recheck r) =>
        Math.Sqrt((r.MissBaseMetres.X * r.MissBaseMetres.X) + (r.MissBaseMetres.Y * r.MissBaseMetres.Y) + (r.MissBaseMetres.Z * r.MissBaseMetres.Z));

    private static IReadOnlyList<string> Row(string what, Vector v) => [what, FixedPoint.Text(v.X), FixedPoint.Text(v.Y), FixedPoint.Text(v.Z)];

    private static double[] Three(Vector v) => [v.X, v.Y, v.Z];

    /// <summary>An uncertainty, rounded up: never shown too small.</summary>
    private static string Up(double metres) => Wording.FixedMillimetres(FixedPoint.Above(metres, FixedPoint.UsualDecimals));

    private static string Signed(double metres) => (1000 * metres).ToString("+0.000;-0.000;0", CultureInfo.InvariantCulture);

    private static string Whole(long number) => number.ToString(CultureInfo.InvariantCulture);
}
