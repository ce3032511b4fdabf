using Stockseat.Audit.Reviewing.Results;
using Stockseat.Sheets.Entries;
using Stockseat.Sheets.Html;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Sheets.Reports;

/// <summary>The answers that were served, in a table.</summary>
internal static class AnswersPart
{
    public static void Write(HtmlWriter html, ReportContext context) => ReportParts.Section(html, "answers", "What was served", () =>
    {
        if (context.Review.Answers.Count == 0)
        {
            html.Text("p", "No answer was served in these minutes.");
            return;
        }

        html.In("table", "", () =>
        {
            html.Text(
                "caption",
                $"Lengths in {context.Unit.Name}. bx, by, bz: the shift in base. Change: how far it moved since the previous answer for the same "
                    + "fixture, purpose and nest. U: the largest expanded uncertainty, k = 2. First: to be run at reduced speed. "
                    + "A thick line at the left: a finding is about this answer.");
            ReportParts.Head(html,
                ("serial, time", "a-serial"), ("client; fixture, purpose, nest", "a-who"), ("diameter, from measurement", "a-diameter"),
                ("rev.", "a-revision n"),
                ("bx", "a-shift n"), ("by", "a-shift n"), ("bz", "a-shift n"), ("change", "a-change n"), ("U", "a-sure n"), ("first", "a-first c"),
                ("confirmed", "a-confirmed"));
            html.In("tbody", "", () =>
            {
                foreach (var answer in context.Review.Answers)
                {
                    Row(html, context, answer);
                }
            });
        });
    });

    private static void Row(HtmlWriter html, ReportContext context, ServedAnswer served)
    {
        var answer = served.Answer;
        var flagged = context.FindingsOf(answer.Serial).Count > 0 || served.Follows == false || served.Misread.Count > 0;
        html.In("tr", flagged ? "flagged" : "", () =>
        {
            html.In("th", "", () =>
            {
                html.Line("p", "", [context.Entry(answer.Serial)]);
                html.Text("p", context.Clock.Time(answer.At));
                if (context.FindingsOf(answer.Serial).Count > 0)
                {
                    html.Line("p", "strong", context.FindingLinks(answer.Serial));
                }

                if (served.Follows == false)
                {
                    html.Text("p", "does not follow", "strong");
                }
            }, ("scope", "row"));
            html.In("td", "", () =>
            {
                html.Text("p", EntryText.Who(answer.Client, answer.Address ?? "unnamed", answer.Tag));
                html.Text("p", $"{answer.Fixture} {answer.Purpose} {EntryText.Nest(answer.Nest)}");
            });
            Diameter(html, context, served);
            html.Text("td", answer.Revision is { } revision ? PrintedNumbers.Whole(revision) : "", "n");
            foreach (var shift in answer.ShiftBase)
            {
                html.Text("td", PrintedNumbers.Signed(shift, context.Unit), "n");
            }

            html.Text("td", served.ChangeMetres is { } change ? PrintedNumbers.Fixed(change, context.Unit) : "\u2013", "n");
            html.Text("td", answer.Uncertainty is { } sure ? context.Unit.Up(sure.Largest) : "not known", "n");
            html.Text("td", answer.First ? "first" : "", "c");
            Confirmed(html, context, served);
        });
    }

    private static void Diameter(HtmlWriter html, ReportContext context, ServedAnswer served) => html.In("td", "", () =>
    {
        html.Text("p", PrintedNumbers.Fixed(served.Answer.Diameter, context.Unit), "strong");
        if (served.Answer.Measurement is { } serial)
        {
            html.Line(
                "p", "", [context.Entry(serial), (served.Measurement is null ? ", not found" : served.Measurement.Lot is { } lot ? $", lot {lot}" : "", null)]);
        }
        else
        {
            html.Text("p", "stated by the client");
        }
    });

    private static void Confirmed(HtmlWriter html, ReportContext context, ServedAnswer served) => html.In("td", "", () =>
    {
        foreach (var misread in served.Misread)
        {
            html.Line("p", "strong", [("refused: ", null), context.Entry(misread.Serial)]);
        }

        if (served.ConfirmedBy is { } serial)
        {
            html.Line("p", "", [("by ", null), context.Entry(serial)]);
        }
        else
        {
            html.Text("p", "NEVER", "strong");
        }
    });
}
