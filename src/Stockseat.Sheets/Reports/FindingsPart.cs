using Stockseat.Audit.Reviewing.Results;
using Stockseat.Sheets.Html;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Sheets.Reports;

/// <summary>The findings, numbered, the most important first.</summary>
internal static class FindingsPart
{
    /// <summary>The most serials that a finding lists; of further ones it gives only how many.</summary>
    private const int MostSerials = 12;

    public static void Write(HtmlWriter html, ReportContext context) => ReportParts.Section(html, "findings", "What to look at", () =>
    {
        if (context.Review.Findings.Count == 0)
        {
            html.Text("p", "No findings.");
            return;
        }

        html.In("ol", "findings", () =>
        {
            for (var i = 0; i < context.Review.Findings.Count; i++)
            {
                One(html, context, context.Review.Findings[i], i + 1);
            }
        });
    });

    private static void One(HtmlWriter html, ReportContext context, ReviewFinding finding, int number) => html.In("li", "", () =>
    {
        html.Text("span", PrintedNumbers.Whole(number), "number");
        html.Text("p", RuleWords.Of(finding.Rule) + (finding.Fixture is { } fixture ? $": {fixture}" : ""), "rule");
        if (Weight(context, finding) is { Length: > 0 } weight)
        {
            html.Text("p", weight, "strong");
        }

        html.Text("p", ReportClock.Printed(finding.What));
        html.Text("p", $"Why it matters: {finding.Why}");
        html.Text("p", $"Next: {finding.Next}");
        if (finding.Serials.Count > 0)
        {
            html.Line("p", "", Serials(context, finding.Serials));
        }
    }, ("id", ReportContext.FindingId(number)));

    /// <summary>Why the finding stands where it stands.</summary>
    private static string Weight(ReportContext context, ReviewFinding finding)
    {
        var moved = finding.MovedMetres is > 0 and { } metres ? $"May have sent the robot up to {context.Unit.FixedText(metres)} off." : "";
        var last = finding.OnLastAnswer ? "The last answer before the instant rests on it." : "";
        return $"{moved} {last}".Trim();
    }

    private static IEnumerable<(string Text, string? Target)> Serials(ReportContext context, IReadOnlyList<long> serials)
    {
        yield return (serials.Count == 1 ? "Entry " : "Entries ", null);
        for (var i = 0; i < Math.Min(serials.Count, MostSerials); i++)
        {
            if (i > 0)
            {
                yield return (", ", null);
            }

            var entry = context.Entry(serials[i]);
            yield return entry;
            if (entry.Target is null)
            {
                yield return (" (not in the table)", null);
            }
        }

        yield return (serials.Count > MostSerials ? $" and {PrintedNumbers.Whole(serials.Count - MostSerials)} more." : ".", null);
    }
}
