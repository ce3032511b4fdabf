using System.Text;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Drawings;
using Stockseat.Sheets.Html;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Sheets.Reports;

/// <summary>
/// The nests to scale, at the last diameter served before the instant, at the diameter before that, and at the measured one where it differs.
/// </summary>
internal static class NestsPart
{
    private const double Height = 104;

    public static void Write(HtmlWriter html, ReportContext context) => ReportParts.Section(html, "nests", "The nests to scale", () =>
    {
        var drawn = context.Review.Fixtures.Where(f => f.LastAnswer is not null).ToList();
        if (drawn.Count == 0)
        {
            html.Text("p", "No answer was served before the instant: there is no diameter to draw.");
        }

        for (var i = 0; i < drawn.Count; i++)
        {
            One(html, context, drawn[i].LastAnswer!, drawn[i].Measurement, i + 1);
        }
    });

    private static void One(HtmlWriter html, ReportContext context, AnswerBody last, MeasurementBody? measured, int number)
    {
        html.Text("h3", $"{last.Fixture}, revision {PrintedNumbers.Whole(last.Revision ?? 0)}, {last.Purpose}");
        if (Find(context.Review, last, out var fault) is not { } revision)
        {
            html.Text("p", $"This nest can't be drawn: {fault}.");
            return;
        }

        var before = Before(context.Review, last);
        var other = measured is null || measured.Diameter == last.Diameter ? null : measured;
        var drawn = DrawnPlan.Of(revision.PlanFor(last.Purpose == "place"), new[] { last.Diameter, before?.Diameter, other?.Diameter }.OfType<double>()) with
        {
            Unit = context.Unit,
        };
        html.In("figure", "", () =>
        {
            var title = $"Nest of {last.Fixture} with stock of {context.Unit.Text(last.Diameter)}";
            html.Raw(
                PlanDrawing.Draw(
                    drawn, ReportStyle.WidthOf(context.Display.Paper), Height, new(
                        $"nest-{PrintedNumbers.Whole(number)}", title, "The nest viewed looking down its normal: locators, stock, jaws closed and "
                            + "open, neighbours. The caption gives the diameters.")));
            html.Text("figcaption", Caption(context, drawn, last, before, other));
        });
        if (revision.Grip is { } grip && last.Length is { } length)
        {
            html.In("figure", "", () =>
            {
                html.Raw(LengthFigure.Draw(
                    grip, [length], context.Unit, ReportStyle.WidthOf(context.Display.Paper), $"length-{PrintedNumbers.Whole(number)}"));
                html.Text("figcaption", LengthFigure.Said(grip, [length], context.Unit));
            });
        }
    }

    private static string Caption(ReportContext context, DrawnPlan drawn, AnswerBody last, AnswerBody? before, MeasurementBody? measured)
    {
        var (now, then) = (Of(drawn, last.Diameter), before is null ? null : Of(drawn, before.Diameter));
        var said = new StringBuilder(
            $"{now.Key}: {context.Unit.Text(last.Diameter)}, served last before the instant (entry {PrintedNumbers.Whole(last.Serial)}, "
                + $"{context.Clock.Time(last.At)}).");
        if (before is null)
        {
            said.Append(" These minutes have no other diameter that was served before.");
        }
        else
        {
            said.Append(
                $" {then!.Key}: {context.Unit.Text(before.Diameter)}, served before that (entry {PrintedNumbers.Whole(before.Serial)}, "
                    + $"{context.Clock.Time(before.At)}"
                    + $"{(before.Digest == last.Digest ? "" : $", from revision {PrintedNumbers.Whole(before.Revision ?? 0)}, drawn here in this one")}).");
            said.Append(Moved(then, now, "the centre moved", context.Unit));
        }

        if (measured is not null)
        {
            var lay = Of(drawn, measured.Diameter);
            said.Append(
                $" {lay.Key}: {context.Unit.Text(measured.Diameter)}, the MEASURED diameter that stood at the instant (entry "
                    + $"{PrintedNumbers.Whole(measured.Serial)}) and was not the one served.{Moved(now, lay, "the centre differs", context.Unit)}");
        }

        return said.Append(
            $" T: the taught diameter, {context.Unit.Text(drawn.Taught.Metres)}. Jaws around {drawn.Worked.Key}: grey closed, dashed open. This is drawn "
                + "from the revision and from the numbers served; nobody looked at the nest.").ToString();
    }

    private static string Moved(DrawnDiameter from, DrawnDiameter to, string what, LengthUnit unit) =>
        from.Stock is { } a && to.Stock is { } b && b.From - a.From is var moved
        ? $" From {from.Key} to {to.Key} {what} by {unit.Text(moved.Length)}: {PrintedNumbers.Signed(moved.U, unit)} {unit} across (u), "
        + $"{PrintedNumbers.Signed(moved.V, unit)} {unit} along the seat axis (v)."
        : "";

    private static DrawnDiameter Of(DrawnPlan drawn, double metres) => drawn.Asked.FirstOrDefault(d => d.Metres == metres) ?? drawn.Taught;

    /// <summary>The newest earlier answer for the same fixture and purpose that has another diameter.</summary>
    private static AnswerBody? Before(Review review, AnswerBody last) => review.Answers
        .SelectMany(a => new[] { a.Before, a.Answer }).OfType<AnswerBody>()
        .Where(a => a.Fixture == last.Fixture && a.Purpose == last.Purpose && a.Serial < last.Serial && a.Diameter != last.Diameter)
        .MaxBy(a => a.Serial);

    private static Revision? Find(Review review, AnswerBody answer, out string fault)
    {
        var adopted = review.Adoptions.LastOrDefault(a => a.Fixture == answer.Fixture && a.Revision == answer.Revision && a.Digest == answer.Digest);
        if (adopted is null)
        {
            fault = $"the entry that adopted revision {PrintedNumbers.Whole(answer.Revision ?? 0)} was not found";
            return null;
        }

        var reading = RevisionReader.FromContent(Encoding.UTF8.GetBytes(adopted.Content.GetRawText()), $"entry {PrintedNumbers.Whole(adopted.Serial)}");
        fault = reading.Revision is null
            ? $"the content in entry {PrintedNumbers.Whole(adopted.Serial)} can't be read: {string.Join("; ", reading.Faults.Take(3))}" : "";
        return reading.Revision;
    }
}
