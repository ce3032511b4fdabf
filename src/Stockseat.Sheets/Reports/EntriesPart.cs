using System.Text;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Sheets.Entries;
using Stockseat.Sheets.Html;
using Stockseat.Sheets.Numbers;

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
            html.Text("p", "There are no entries in these minutes.");
            return;
        }

        html.In("table", "", () =>
        {
            html.Text(
                "caption",
                "In the order of their serials. Hash: the first 12 digits of each entry's chain hash. A thick line at the left: a finding is about this entry."
                + (review.LeftOut > 0 ? $" {PrintedNumbers.Count(review.LeftOut, "entry", "entries")} of these minutes NOT SHOWN." : ""));
            ReportParts.Head(
                html, ("serial", "e-serial"), ("time", "e-time"), ("kind", "e-kind"), ("fixture", "e-fixture"), ("client", "e-client"), ("what", "e-what"),
                ("hash", "e-hash"));
            html.In("tbody", "", () =>
            {
                var crossed = false;
                Notes(html, context, 0);
                foreach (var entry in review.Entries)
                {
                    if (!crossed && review.IsAfter(entry))
                    {
                        crossed = true;
                        Here(html, context);
                    }

                    Row(html, context, entry);
                    Notes(html, context, entry.Serial);
                }

                if (!crossed)
                {
                    Here(html, context);
                }
            });
        });
    });

    private static void Here(HtmlWriter html, ReportContext context) =>
        html.In("tr", "here", () => html.Text("td", $"the instant, {context.Clock.Time(context.Review.At)}", "", ("colspan", PrintedNumbers.Whole(Columns))));

    /// <summary>A person's words stand behind the entry that they are about, whenever they were written.</summary>
    private static void Notes(HtmlWriter html, ReportContext context, long serial)
    {
        foreach (var note in context.NotesBehind(serial))
        {
            html.In("tr", "noted", () => html.In(
                "td", "",
                () => html.Line(
                    "p", "", [($"noted by {note.By}: \u201C{note.Text}\u201D (entry ", null), context.Entry(note.Serial),
                        ($", {context.Clock.Time(note.At)})", null)]),
                ("colspan", PrintedNumbers.Whole(Columns))));
        }
    }

    private static string Unreadable(ReviewEntry entry) =>
        $"NOT READABLE by this version of the program: {PrintedNumbers.Count(Encoding.UTF8.GetByteCount(entry.Row.Body), "byte")} of kind {entry.Row.Kind}";

    private static void Row(HtmlWriter html, ReportContext context, ReviewEntry entry) =>
        html.In("tr", context.FindingsOf(entry.Serial).Count > 0 ? "flagged" : "", () =>
    {
        html.In("th", "", () => html.Text("p", PrintedNumbers.Whole(entry.Serial)), ("scope", "row"));
        html.Text("td", context.Clock.Time(entry.Row.At));
        html.Text("td", entry.Row.Kind.Replace('-', ' '));
        html.Text("td", entry.Row.Fixture ?? "");
        html.Text("td", EntryText.Who(entry.Row.Client, entry.Body?.Address, entry.Row.Tag));
        html.In("td", "", () =>
        {
            html.Text("p", EntryText.Of(entry.Body, context.Unit) ?? Unreadable(entry));
            if (context.FindingsOf(entry.Serial).Count > 0)
            {
                html.Line("p", "strong", context.FindingLinks(entry.Serial));
            }
        });
        html.Text("td", PrintedNumbers.Short(Convert.ToHexStringLower(entry.Row.Hash)), "hash");
    }, ("id", ReportContext.RowId(entry.Serial)));
}
