using System.Globalization;
using System.Text.Json.Nodes;
using Stockseat.Answers.Advising;
using Stockseat.Answers.Entries;
using Stockseat.Fixtures.Revisions;
using Stockseat.V1;

namespace Stockseat.Cli.Output;

/// <summary>A recheck: in millimetres for people, in metres for machines.</summary>
internal static class RecheckView
{
    /// <summary>One that was just recorded: what was predicted and found, the verdict, what to do.</summary>
    public static void Print(Recheck r)
    {
        Plain.Line($"entry {r.Serial}: {r.Fixture} revision {r.Revision}, master {Mm(r.MasterMetres)} mm in nest {r.Column},{r.Row}");
        Plain.Table(["in base", "x [m]", "y [m]", "z [m]"], [Row("predicted", r.PredictedMetres), Row("found", r.FoundMetres), Row("miss", r.MissBaseMetres)]);
        Plain.Line($"miss: {Signed(r.Miss.AlongMetres)} mm along the seat axis, {Signed(r.Miss.AcrossMetres)} mm across it, {Signed(r.Miss.OutOfPlanMetres)} mm out of the plan; {Plainly(Length(r))} mm long");
        Plain.Line(r.Expected is { } u
            ? $"expected: within U (k = 2) of {Up(u.AlongMetres)} mm along, {Up(u.AcrossMetres)} mm across"
            : $"expected: not known, since revision {r.Revision} states {(r.HasMasterWithinMetres ? "no uncertainty" : "no uncertainty.askedDiameter; --within says how well the master is known, if there is an uncertainty")}");
        foreach (var line in Verdict(r))
        {
            Plain.Line(line);
        }
    }

    /// <summary>How long a miss is, and how it lies: "0.612 mm (+0.6 along, -0.12 across, 0 out of the plan)".</summary>
    public static string Told(Recheck r) =>
        $"{Plainly(Length(r))} mm ({Signed(r.Miss.AlongMetres)} along, {Signed(r.Miss.AcrossMetres)} across, {Signed(r.Miss.OutOfPlanMetres)} out of the plan)";

    /// <summary>The rechecks as a table, and the control limits of each revision.</summary>
    public static void Print(IReadOnlyList<Recheck> rechecks, IReadOnlyList<TrendSection> sections)
    {
        Plain.Table(
            ["serial", "at (UTC)", "rev", "nest", "master [mm]", "along [mm]", "across [mm]", "out of plan [mm]", "verdict"],
            sections.SelectMany(s => rechecks.Skip(s.First).Take(s.Count).Select(r => (IReadOnlyList<string>)
            [
                Whole(r.Serial), r.At, Whole(r.Revision), $"{r.Column},{r.Row}", Mm(r.MasterMetres),
                Signed(r.Miss.AlongMetres), Signed(r.Miss.AcrossMetres), Signed(r.Miss.OutOfPlanMetres),
                Name(r.Verdict) + (r.RefusesAsks ? ", refuses asks" : "") + (Beyond(r, s) is { Count: > 0 } beyond ? $", beyond control limits {string.Join(" and ", beyond)}" : ""),
            ])));
        foreach (var s in sections)
        {
            Plain.Line($"revision {s.Revision}, {Counted(s.Count)}: {(s is { Along: { } along, Across: { } across }
                ? $"along {Limits(along)}; across {Limits(across)}"
                : $"no control limits: they need {IndividualsLimits.Enough}")}");
        }
    }

    /// <summary>The ways in which a recheck lies beyond the control limits of its revision.</summary>
    public static List<string> Beyond(Recheck r, TrendSection section) =>
    [
        .. section.Along?.Beyond(r.Miss.AlongMetres) == true ? ["along"] : (string[])[],
        .. section.Across?.Beyond(r.Miss.AcrossMetres) == true ? ["across"] : (string[])[],
    ];

    public static string Counted(int rechecks) => rechecks == 1 ? "1 recheck" : $"{Whole(rechecks)} rechecks";

    public static JsonObject Of(Recheck r)
    {
        var value = new JsonObject
        {
            ["serial"] = r.Serial, ["at"] = r.At, ["fixture"] = r.Fixture, ["revision"] = r.Revision, ["digest"] = r.Digest, ["by"] = r.By,
        };
        if (r.Note.Length > 0)
        {
            value["note"] = r.Note;
        }

        (value["unit"], value["master"]) = ("m", r.MasterMetres);
        if (r.HasMasterWithinMetres)
        {
            value["masterWithin"] = r.MasterWithinMetres;
        }

        value["nest"] = new JsonArray(r.Column, r.Row);
        (value["predicted"], value["found"], value["missBase"]) = (Three(r.PredictedMetres), Three(r.FoundMetres), Three(r.MissBaseMetres));
        value["miss"] = new JsonObject { ["along"] = r.Miss.AlongMetres, ["across"] = r.Miss.AcrossMetres, ["outOfPlan"] = r.Miss.OutOfPlanMetres };
        if (r.Expected is { } u)
        {
            value["expected"] = BudgetView.Of(u);
        }

        if (r.HasLimitMetres)
        {
            value["limit"] = r.LimitMetres;
        }

        (value["verdict"], value["refusesAsks"]) = (Name(r.Verdict), r.RefusesAsks);
        return value;
    }

    private static IEnumerable<string> Verdict(Recheck r)
    {
        var by = r.HasLimitMetres ? $"limits.recheck is {Mm(r.LimitMetres)} mm, for the length of the miss" : "along and across are judged by what is expected, since limits.recheck is not stated";
        if (r.Verdict == RecheckVerdict.NotJudged)
        {
            yield return $"not judged: revision {r.Revision} states no limits.recheck, and what to expect is not known; state either in the next revision";
            yield break;
        }

        if (r.Verdict == RecheckVerdict.Passed)
        {
            yield return $"passed: {by}";
            yield break;
        }

        yield return $"MISSED: {by}";
        yield return r.RefusesAsks
            ? "Asks are refused (recheck-failed) until another revision is adopted; a recheck that passes does not lift it."
            : $"Asks are still answered; it shows in stockseat fixture list until another revision is adopted. In doubt: stockseat fixture hold {r.Fixture} --by WHO --why WHY.";
        yield return "Clean nest and master and recheck. If it misses again, calibrate the fixture and adopt the new revision. If a value was mistyped, publish the same values under the next number and adopt that.";
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

    private static JsonArray Three(Vector v) => new(v.X, v.Y, v.Z);

    private static string Mm(double metres) => Wording.Millimetres(metres);

    private static string Plainly(double metres) => (1000 * metres).ToString("0.000", CultureInfo.InvariantCulture);

    /// <summary>An uncertainty, rounded up: never told too small.</summary>
    private static string Up(double metres) => Plainly(FixedPoint.Above(metres, FixedPoint.UsualDecimals));

    private static string Signed(double metres) => (1000 * metres).ToString("+0.000;-0.000;0", CultureInfo.InvariantCulture);

    private static string Whole(long number) => number.ToString(CultureInfo.InvariantCulture);
}
