using Stockseat.Audit.Reviewing.Results;
using Stockseat.Sheets.Html;

namespace Stockseat.Sheets.Reports;

/// <summary>A review as a page to read, print and hand over: one file without script, which needs nothing from outside.</summary>
public static class ReviewReport
{
    /// <summary>The page.</summary>
    /// <param name="review">The review.</param>
    /// <param name="zone">The zone whose times it shows beside UTC.</param>
    /// <param name="printed">When the page is made, in local time with its offset.</param>
    /// <param name="by">Who makes it; null when nobody says.</param>
    public static string Page(Review review, TimeZoneInfo zone, DateTimeOffset printed, string? by = null)
    {
        var (html, context) = (new HtmlWriter(), new ReportContext(review, zone));
        html.Raw("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>");
        html.Raw("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\"/>");
        html.Raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>");
        html.Text("title", TitlePart.Title(context));
        html.Raw($"<style>\n{ReportStyle.Of(review.Ledger, $"around {ReportClock.Own(context.Clock.Instant)}")}\n</style>\n</head>\n<body>");
        TitlePart.Write(html, context);
        html.In("main", "", () =>
        {
            TitlePart.Summary(html, context);
            FindingsPart.Write(html, context);
            TimelinePart.Write(html, context);
            StandingPart.Write(html, context);
            AnswersPart.Write(html, context);
            NestsPart.Write(html, context);
            EntriesPart.Write(html, context);
            EvidencePart.Write(html, context);
        });
        ClosingPart.Write(html, printed, by);
        html.Raw("</body>\n</html>");
        return html.ToString();
    }
}
