using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Showing;
using Stockseat.Sheets.Html;

namespace Stockseat.Sheets.Reports;

/// <summary>A review as a page to read, print and hand over: one file without script, which needs nothing from outside.</summary>
public static class ReviewReport
{
    /// <summary>The style sheet of reports that are served rather than kept. It is the same for all, so the foot names no ledger and no instant.</summary>
    public static string Style(PaperSize paper) => ReportStyle.Of("review of a Stockseat ledger", paper);

    /// <summary>The page.</summary>
    /// <param name="review">The review.</param>
    /// <param name="display">The unit of its lengths, the zone of its times, its paper.</param>
    /// <param name="printed">The instant at which the page is made.</param>
    /// <param name="by">Who makes it; null when nobody says.</param>
    /// <param name="style">Where its style sheet is, the one of <see cref="Style"/>; null: the style is in the page.</param>
    public static string Page(Review review, Display display, DateTimeOffset printed, string? by = null, string? style = null)
    {
        var (html, context) = (new HtmlWriter(), new ReportContext(review, display));
        html.Raw("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>");
        if (style is null)
        {
            html.Raw("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\"/>");
        }

        html.Raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>");
        html.Text("title", TitlePart.Title(context));
        if (style is null)
        {
            var foot = ReportStyle.Foot(review.Ledger, $"around {ReportClock.Own(context.Clock.Instant)}");
            html.Raw($"<style>\n{ReportStyle.Of(foot, display.Paper)}\n</style>");
        }
        else
        {
            html.Empty("link", ("rel", "stylesheet"), ("href", style));
        }

        html.Raw("</head>\n<body>");
        TitlePart.Write(html, context);
        html.In("main", "", () =>
        {
            TitlePart.Summary(html, context);
            FindingsPart.Write(html, context);
            ChangesPart.Write(html, context);
            TimelinePart.Write(html, context);
            StandingPart.Write(html, context);
            AnswersPart.Write(html, context);
            NestsPart.Write(html, context);
            EntriesPart.Write(html, context);
            EvidencePart.Write(html, context);
        });
        ClosingPart.Write(html, display.Times.In(printed), by);
        html.Raw("</body>\n</html>");
        return html.ToString();
    }
}
