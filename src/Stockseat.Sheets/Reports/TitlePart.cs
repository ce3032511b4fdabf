using Stockseat.Answers.Events;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Sheets.Html;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Sheets.Reports;

/// <summary>What the report is about, and what happened, in words.</summary>
internal static class TitlePart
{
    public static void Write(HtmlWriter html, ReportContext context)
    {
        var (review, clock) = (context.Review, context.Clock);
        html.In("header", "", () =>
        {
            html.Text("h1", Title(context));
            html.Text(
                "p", "Stockseat tells robot controllers where round stock lies in a fixture, for the diameter that was measured, and keeps every answer and "
                    + "refusal in a ledger. This report shows what the ledger says; the ledger does not know what the robot did.");
            html.In("dl", "", () =>
            {
                var utc = clock.Zone == "UTC" ? "" : $" ({clock.Zone}), which is {new ReportClock(review.At, TimeZoneInfo.Utc).Full(review.At)} UTC";
                var asked = review.Question.Serial is { } serial ? $"; that of entry {PrintedNumbers.Whole(serial)}" : "";
                ReportParts.Fact(html, "the instant", $"{Of(clock)}{utc}{asked}");
                ReportParts.Fact(
                    html, "covered", $"{PrintedNumbers.Duration(review.Question.Before)} before it and {PrintedNumbers.Duration(review.Question.After)} "
                        + $"after it, {What(review.Question)}"
                        + $"{(review.Entries.Any(e => e.Body is ClockStepBody) ? ", and entries as near by elapsed time where the clock was set" : "")}: "
                        + $"{PrintedNumbers.Count(review.Entries.Count + review.LeftOut, "entry", "entries")}");
                ReportParts.Fact(html, "ledger", $"{review.Ledger ?? "without an id"}, head at entry {PrintedNumbers.Whole(review.HeadSerial)}");
                ReportParts.Fact(
                    html, "times below",
                    $"all {clock.Offset}{(clock.Zone == "UTC" ? "" : " unless they say UTC")}, by the clock of the service's machine");
            });
        });
    }

    /// <summary>The report's title.</summary>
    public static string Title(ReportContext context) =>
        $"What happened around {Of(context.Clock)} {(context.Clock.Zone == "UTC" ? "UTC" : context.Clock.Offset)}";

    public static void Summary(HtmlWriter html, ReportContext context)
    {
        html.In("section", "summary", () =>
        {
            var sentences = Sentences(context.Review).Select(ReportClock.Printed).ToList();
            html.In("h2", "", () =>
            {
                html.Text("span", "In short:", "short");
                html.Text("span", sentences[0], "first");
            }, ("id", "summary"));
            var headlines = context.Review.Headlines.Select(h => h.Text).ToHashSet();
            foreach (var sentence in sentences.Skip(1))
            {
                html.Text("p", sentence, headlines.Contains(sentence) ? "strong" : "");
            }
        }, ("aria-labelledby", "summary"));
        if (context.Review.LeftOut > 0)
        {
            html.Text(
                "p", $"NOT ALL ENTRIES ARE HERE. {PrintedNumbers.Count(context.Review.LeftOut, "more entry is", "more entries are")} in these minutes; the "
                    + $"{PrintedNumbers.Whole(context.Review.Entries.Count)} nearest to the instant are shown, and only these were examined. Review fewer "
                    + "minutes or one fixture, or take all with stockseat ledger export.", "loud");
        }
    }

    private static string Of(ReportClock clock) => clock.Full(clock.Instant);

    private static string What(ReviewQuestion question) => (question.Fixture, question.Cell) switch
    {
        ({ } fixture, { } cell) => $"only what concerns fixture {fixture} and cell {cell}",
        ({ } fixture, null) => $"only what concerns fixture {fixture}",
        (null, { } cell) => $"only what concerns cell {cell}",
        _ => "all fixtures",
    };

    private static IEnumerable<string> Sentences(Review review)
    {
        if (review.Summary.Count > 0)
        {
            return review.Summary;
        }

        return review switch
        {
            { Findings: [var first, ..] } => [first.What],
            { Entries.Count: 0 } =>
            [
                "The ledger has no entry in these minutes.",
                "Either nobody asked, nothing was measured and the service wrote nothing, or you meant another instant.",
            ],
            _ =>
            [
                "The rules found nothing to look at in these minutes.", "That means only that nothing matches what the rules look for; the entries are below.",
            ],
        };
    }
}
