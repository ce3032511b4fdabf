using Stockseat.Answers.Cautions;
using Stockseat.Answers.Entries;
using Stockseat.Sheets.Html;

namespace Stockseat.Sheets.Reports;

/// <summary>The cautions, and who made the report.</summary>
internal static class ClosingPart
{
    private static readonly string[] Cautions =
    [
        "This report is not a release to restart. It shows what the ledger knows, not what is in the nests now, nor what the robot did.",
        $"{Caution.Motion} {Caution.NotSafety("Stockseat")}",
        $"{Caution.First} The same holds after any repair. {Caution.NoAnswer}",
        $"{Caution.Shift} {Caution.Diameter}",
        $"{Caution.Touching} {Caution.Printed}",
        $"{Caution.Standards} {Caution.Local}",
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
            html.Text("p", $"Made {ReportClock.Own(printed)}{(by is null ? "" : $" by {by}")} with Stockseat {ProgramVersion.Text}, only from the ledger.");
            html.In("div", "signs", () =>
            {
                html.Text("p", "handed over by", "sign");
                html.Text("p", "to", "sign");
                html.Text("p", "date", "sign");
            });
        });
    }
}
