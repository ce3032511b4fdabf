using Stockseat.Answers.Entries;
using Stockseat.Sheets.Html;

namespace Stockseat.Sheets.Reports;

/// <summary>The cautions, and who made the report.</summary>
internal static class ClosingPart
{
    private static readonly string[] Cautions =
    [
        "This report is no release to restart. It tells what the ledger knows; it does not know what is in the nests now, nor what the robot did.",
        "A robot's motion can injure and destroy. Stockseat is not a safety function and replaces none.",
        "First run of an answer marked first, and after any repair, at reduced speed with people clear. On a refusal, a time-out or a lost connection: stop "
            + "and call; never reuse the last shift.",
        "The diameter also changes approach points, the chuck's grip, payload and tipping: check each. Touching nests needs the teaching mode, reduced speed "
            + "and an enabling device.",
        "ISO 10218-1 and -2:2025, ANSI/A3 R15.06-2025, ISO 12100; local codes and licensed practice come first.",
    ];

    public static void Write(HtmlWriter html, DateTimeOffset printed, string? by)
    {
        html.In("section", "cautions", () =>
        {
            html.Text("h2", "Cautions", "", ("id", "cautions"));
            foreach (var caution in Cautions)
            {
                html.Text("p", caution);
            }
        }, ("aria-labelledby", "cautions"));
        html.In("footer", "", () =>
        {
            html.Text("p", $"Made {ReportClock.Own(printed)}{(by is null ? "" : $" by {by}")} with Stockseat {ProgramVersion.Text}, from the ledger alone.");
            html.In("div", "signs", () =>
            {
                html.Text("p", "handed over by", "sign");
                html.Text("p", "to", "sign");
                html.Text("p", "date", "sign");
            });
        });
    }
}
