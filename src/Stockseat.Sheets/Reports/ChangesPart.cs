using Stockseat.Audit.Reviewing.Results;
using Stockseat.Sheets.Entries;
using Stockseat.Sheets.Html;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Sheets.Reports;

/// <summary>What the adoptions among the findings changed; nothing when there is none.</summary>
internal static class ChangesPart
{
    public static void Write(HtmlWriter html, ReportContext context)
    {
        if (context.Review.Changes.Count > 0)
        {
            ReportParts.Section(html, "changes", "What the revisions changed", () =>
            {
                foreach (var adoption in context.Review.Changes)
                {
                    One(html, context, adoption);
                }
            });
        }
    }

    private static void One(HtmlWriter html, ReportContext context, AdoptionChanges adoption)
    {
        var title = $"{adoption.Fixture}: from revision {PrintedNumbers.Whole(adoption.Before)} to {PrintedNumbers.Whole(adoption.After)}";
        html.Line("h3", "", [($"{title}, entry ", null), context.Entry(adoption.Serial)]);
        if (adoption.Changes.Count == 0)
        {
            html.Text("p", "Only the number differs: all values are the same.");
            return;
        }

        html.In("table", "", () =>
        {
            html.Text("caption", "The values that differ, by their place in the revision's file; those that move every answer come first.");
            ReportParts.Head(html, ("value", "c-key"), ("before", "c-value"), ("after", "c-value"));
            html.In("tbody", "", () =>
            {
                foreach (var change in adoption.Changes)
                {
                    var (before, after) = ChangeText.Of(change, context.Unit);
                    html.In("tr", "", () =>
                    {
                        html.In("th", "", () => html.Text("p", change.Key), ("scope", "row"));
                        html.Text("td", before);
                        html.Text("td", after);
                    });
                }
            });
        });
    }
}
