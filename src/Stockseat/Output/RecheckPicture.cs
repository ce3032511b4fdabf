using Stockseat.Answers.Cautions;
using Stockseat.Answers.Entries;
using Stockseat.Audit.Showing;
using Stockseat.Sheets.Drawings;
using Stockseat.V1;

namespace Stockseat.Cli.Output;

/// <summary>Rechecks as a page to print.</summary>
internal static class RecheckPicture
{
    private const int Named = 6;

    public static string Draw(IReadOnlyList<Recheck> rechecks, Display display)
    {
        var title = $"{rechecks[0].Fixture}: rechecks";
        var under = $"{RecheckView.Counted(rechecks.Count)}, entries {rechecks[0].Serial} to {rechecks[^1].Serial}; masters "
            + $"{List(rechecks.Select(r => display.Length.Short(r.MasterMetres)))} {display.Length}; nests {List(rechecks.Select(r => $"{r.Column},{r.Row}"))}";
        var charts = new RecheckCharts([.. rechecks.Select(Charted)]);
        string[] notes =
        [
            $"Found minus predicted. {charts.Limits}",
            "Beyond control limits: something has changed; find out what. Missed: longer than limits.recheck in any direction; without it, beyond U.",
            "Different masters and nests in one chart add their own differences. A recheck is an aid to judgement.",
            $"{Caution.Motion} {Caution.NotSafety("A recheck")}",
            $"{Caution.Touching} {Caution.Local}",
        ];
        return RunSheet.Draw(title, under, notes, display, charts.Charts);
    }

    private static ChartedRecheck Charted(Recheck r) => new(
        r.Revision, EntryTime.Parse(r.At), r.Miss.AlongMetres, r.Miss.AcrossMetres,
        r.Expected is { } u ? (u.AlongMetres, u.AcrossMetres) : null, r.HasLimitMetres ? r.LimitMetres : null,
        r.Verdict switch { RecheckVerdict.Passed => true, RecheckVerdict.Missed => false, _ => null });

    private static string List(IEnumerable<string> texts)
    {
        var all = texts.Distinct().ToList();
        return string.Join(" | ", all.Take(Named)) + (all.Count > Named ? " and others" : "");
    }
}
