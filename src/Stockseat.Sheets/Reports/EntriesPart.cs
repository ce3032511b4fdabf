using Stockseat.Audit.Reviewing.Results;
using Stockseat.Sheets.Html;

namespace Stockseat.Sheets.Reports;

/// <summary>All entries, in a table.</summary>
internal static class EntriesPart
{
    private const int Columns = 7;

    public static void Write(HtmlWriter html, ReportContext context) => ReportParts.Section(html, "entries", "All entries", () =>
    {
        var review = context.Review;
        if (review.Entries.Count == 0)
        {
            html.Text("p", "There is none in these minutes.");
            return;
        }

        html.In("table", "", () =>
        {
            html.Text("caption", "In the order of their serials. Hash: the first 12 digits of each entry's chain hash. A thick line at the left: a finding is about the entry."
                + (review.LeftOut > 0 ? $" {ReportNumbers.Count(review.LeftOut, "entry", "entries")} of these minutes NOT SHOWN." : ""));
            ReportParts.Head(html, ("serial", "e-serial"), ("time", "e-time"), ("kind", "e-kind"), ("fixture", "e-fixture"), ("client", "e-client"), ("what", "e-what"), ("hash", "e-hash"));
            html.In("tbody", "", () =>
            {
                var crossed = false;
                foreach (var entry in review.Entries)
                {
                    if (!crossed && review.IsAfter(entry))
                    {
                        crossed = true;
                        Here(html, context);
                    }

                    Row(html, context, entry);
                }

                if (!crossed)
                {
                    Here(html, context);
                }
            });
        });
    });

    private static void Here(HtmlWriter html, ReportContext context) =>
        html.In("tr", "here", () => html.Text("td", $"the instant, {context.Clock.Time(context.Review.At)}", "", ("colspan", ReportNumbers.Whole(Columns))));

    private static void Row(HtmlWriter html, ReportContext context, ReviewEntry entry) => html.In("tr", context.FindingsOf(entry.Serial).Count > 0 ? "flagged" : "", () =>
    {
        html.In("th", "", () => html.Text("p", ReportNumbers.Whole(entry.Serial)), ("scope", "row"));
        html.Text("td", context.Clock.Time(entry.Row.At));
        html.Text("td", EntryWords.Kind(entry));
        html.Text("td", entry.Row.Fixture ?? "");
        html.Text("td", EntryWords.Who(entry.Row.Client, entry.Body?.Address, entry.Row.Tag));
        html.In("td", "", () =>
        {
            html.Text("p", EntryWords.Of(entry));
            if (context.FindingsOf(entry.Serial).Count > 0)
            {
                html.Line("p", "strong", context.FindingLinks(entry.Serial));
            }
        });
        html.Text("td", ReportNumbers.Short(Convert.ToHexStringLower(entry.Row.Hash)), "hash");
    }, ("id", ReportContext.RowId(entry.Serial)));
}
