using Stockseat.Answers.Advising;
using Stockseat.Answers.Cautions;
using Stockseat.Answers.Entries;
using Stockseat.Audit.Showing;
using Stockseat.Sheets.Drawings;
using Stockseat.V1;

namespace Stockseat.Cli.Output;

/// <summary>Rechecks as run charts, along the seat axis and across it.</summary>
internal static class RecheckPicture
{
    private const int Named = 6;

    public static string Draw(IReadOnlyList<Recheck> rechecks, IReadOnlyList<TrendSection> sections, Display display)
    {
        var title = $"{rechecks[0].Fixture}: rechecks";
        var under = $"{RecheckView.Counted(rechecks.Count)}, entries {rechecks[0].Serial} to {rechecks[^1].Serial}; masters "
            + $"{List(rechecks.Select(r => display.Length.Short(r.MasterMetres)))} {display.Length}; nests {List(rechecks.Select(r => $"{r.Column},{r.Row}"))}";
        string[] notes =
        [
            $"Found minus predicted. Control limits: mean ± 2.66 times the mean moving range of one revision, from {IndividualsLimits.Enough} rechecks "
                + $"on{Lacking(sections[^1])}.",
            "Beyond control limits: something has changed; find out what. Missed: longer than limits.recheck in any direction; without it, beyond U.",
            "Different masters and nests in one chart add their own differences. A recheck is an aid to judgement.",
            $"{Caution.Motion} {Caution.NotSafety("A recheck")}",
            $"{Caution.Touching} {Caution.Local}",
        ];
        return RunSheet.Draw(
            title, under, notes, display,
            Chart("along the seat axis", rechecks, sections, r => r.Miss.AlongMetres, u => u.AlongMetres, s => s.Along),
            Chart("across the seat axis", rechecks, sections, r => r.Miss.AcrossMetres, u => u.AcrossMetres, s => s.Across));
    }

    private static RunChart Chart(
        string name, IReadOnlyList<Recheck> rechecks, IReadOnlyList<TrendSection> sections,
        Func<Recheck, double> miss, Func<Uncertainty, double> expected, Func<TrendSection, IndividualsLimits?> limits) => new(
        name,
        [
            .. sections.SelectMany(s => rechecks.Skip(s.First).Take(s.Count).Select(r => new RunPoint(
                EntryTime.Parse(r.At), miss(r), r.Expected is { } u ? expected(u) : null, r.HasLimitMetres ? r.LimitMetres : null,
                r.Verdict switch { RecheckVerdict.Passed => true, RecheckVerdict.Missed => false, _ => null }, limits(s)?.Beyond(miss(r)) == true))),
        ],
        [.. sections.Select(s => new RunSection(s.Revision, s.First, s.Count, limits(s) is { } l ? (l.Mean, l.Lower, l.Upper) : null))]);

    private static string Lacking(TrendSection last) => last.Along is null ? $"; revision {last.Revision} has {last.Count}" : "";

    private static string List(IEnumerable<string> texts)
    {
        var all = texts.Distinct().ToList();
        return string.Join(" | ", all.Take(Named)) + (all.Count > Named ? " and others" : "");
    }
}
