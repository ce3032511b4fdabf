using Stockseat.Answers.Entries;
using Stockseat.Answers.Recheck;
using Stockseat.Audit.Showing;
using Stockseat.Ledger.Store;
using Stockseat.Service.Pages.Entries;
using Stockseat.Sheets.Drawings;
using Stockseat.Sheets.Svg;

namespace Stockseat.Service.Pages.Fixtures;

/// <summary>The newest rechecks of a fixture.</summary>
/// <param name="Chart">Their misses over time, as SVG; null: there are none.</param>
/// <param name="Limits">What the chart's control limits mean.</param>
/// <param name="Lines">Each in words, the newest first.</param>
public sealed record ShownRechecks(string? Chart, string Limits, IReadOnlyList<EntryLine> Lines)
{
    /// <summary>What is shown of them.</summary>
    /// <param name="fixture">The fixture.</param>
    /// <param name="rows">Their entries, the oldest first.</param>
    /// <param name="display">How lengths and times are shown.</param>
    public static ShownRechecks Of(string fixture, IReadOnlyList<EntryRow> rows, Display display)
    {
        List<EntryLine> lines = [.. rows.Select(r => EntryLine.Of(r, display)).Reverse()];
        var charted = rows.Select(r => r.TryReadBody()).OfType<RecheckBody>().Select(Charted).ToList();
        if (charted.Count == 0)
        {
            return new(null, "", lines);
        }

        var charts = new RecheckCharts(charted);
        var part = new PagePart(
            "rechecks", $"Rechecks of {fixture}", "How far masters were found from where they were predicted, in the order of time; the list says the same.");
        return new(RunFigure.Draw(part, display, charts.Charts), charts.Limits, lines);
    }

    private static ChartedRecheck Charted(RecheckBody b) => new(
        b.Revision ?? 0, EntryTime.Parse(b.At), b.Miss.Along, b.Miss.Across, b.Expected is { } u ? (u.Along, u.Across) : null, b.Limit, b.Passed);
}
