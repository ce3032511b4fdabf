using System.Globalization;
using Stockseat.Answers.Cautions;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Answers.Tabulating;
using Stockseat.Audit.Showing;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Drawings;
using Stockseat.Sheets.Html;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Sheets.Cards;

/// <summary>A page to hang up in the cell for the day when the network is down: one file without script, which needs nothing from outside.</summary>
public static class OffsetCard
{
    private const double DrawingHeight = 114;

    private static readonly string[] Cautions =
    [
        $"{Caution.Motion} {Caution.NotSafety("This card")}",
        "After each number that you enter, run the first piece at reduced speed, with people clear: nobody has confirmed the number.",
        "Measure the stock first, then enter the numbers of the row with that diameter. If the diameter is smaller or larger than all in the table, enter "
            + "nothing: stop and call.",
        Caution.Shift,
        Caution.NoAnswer,
        Caution.Diameter,
        Caution.Touching,
        "No ledger knows what is entered from this card: write down what was entered, when, and by whom.",
        $"{Caution.Standards} {Caution.Local}",
    ];

    /// <summary>The page.</summary>
    /// <param name="table">The table that is printed.</param>
    /// <param name="inForce">Whether its revision is in force.</param>
    /// <param name="printed">The instant at which the card is made.</param>
    /// <param name="display">The unit of its lengths, the zone of its times, its paper.</param>
    public static string Page(OffsetTable table, InForce inForce, DateTimeOffset printed, Display display)
    {
        var (html, revision, unit) = (new HtmlWriter(), table.Revision, display.Length);
        html.Raw("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>");
        html.Text("title", $"{revision.Fixture} revision {revision.Number}: offsets by diameter, {table.Purpose.Name()}");
        html.Raw($"<style>\n{CardStyle.Of(revision, display.Paper)}\n</style>\n</head>\n<body>");
        html.Text("h1", string.Create(CultureInfo.InvariantCulture, $"{revision.Fixture}, revision {revision.Number}"));
        html.Text(
            "p", $"{table.Purpose.Name().ToUpperInvariant()} at nest {table.Column},{table.Row}{(table.IsOrigin ? " (grid origin)" : "")}: shift and "
                + $"corrected {Place(table)} by diameter; stand-off (clearance to both locators) {unit.Text(table.StandOffMetres)}", "what");
        Void(html, inForce, display.Times.Minute(printed));
        Proven(html, inForce, display.Times.Minute(printed), unit);
        html.In("div", "signs", () =>
        {
            foreach (var line in new[] { "compared with fixture list, hung up by", "signature", "date, time", "taken down by, date" })
            {
                html.Text("p", line, "sign");
            }
        });
        Facts(html, table, unit);
        Numbers(html, table, unit);
        html.In("div", "cautions", () =>
        {
            html.Text("h2", "Cautions");
            foreach (var caution in Cautions)
            {
                html.Text("p", caution);
            }
        });
        CardTable.Write(html, table, inForce, unit);
        html.In("div", "end", () => CardStatement.Write(html, revision, unit));
        html.In("div", "end", () =>
        {
            html.Text("h2", "The nest, viewed looking down the normal");
            html.Text("p", "The stock's centre moves only in this plane, mostly along the seat axis v.");
            var drawn = DrawnPlan.Of(revision.PlanFor(table.Purpose == Purpose.Place), []) with { Unit = unit, Frame = revision.Frame };
            html.Raw(PlanDrawing.Draw(drawn, CardStyle.WidthOf(display.Paper), DrawingHeight));
        });
        html.Raw("</body>\n</html>");
        return html.ToString();
    }

    private static string Place(OffsetTable table) => table.IsOrigin ? "origin" : "position";

    private static void Void(HtmlWriter html, InForce inForce, string printed)
    {
        html.In("div", "void", () =>
        {
            html.Text("strong", "VOID AFTER ANY ADOPTION");
            html.Text(
                "p", "Before use, compare revision and digest with what \"stockseat fixture list\" says, at the service's own machine when the network is "
                    + "down. If they differ, or if nobody can tell, take this card down.");
        });
        var why = inForce.Why.Length > 0 ? $": {inForce.Why}" : "";
        html.Text(
            "p", inForce.Is == true ? $"In force when this was printed, {printed}." : $"{inForce.Head} when this was printed, {printed}{why}. "
                + $"{(inForce.Is == false ? "Don't use it." : "Don't use it until somebody has made sure.")}", inForce.Is == true ? "standing" : "standing "
                + "alarm");
        if (inForce.Refused is { } refused)
        {
            html.Text("p", $"The service REFUSED ALL ASKS for it when this was printed: {refused}.", "standing alarm");
        }
    }

    private static void Proven(HtmlWriter html, InForce inForce, string printed, LengthUnit unit)
    {
        if (inForce.Lacking is { } lacking)
        {
            html.Text(
                "p", lacking.Count == 0 ? $"Proven by rechecks when this was printed, {printed}."
                    : $"NOT PROVEN by rechecks when this was printed, {printed}. What was lacking: "
                        + $"{string.Join("; ", lacking.Select(l => Proof.Said(l, unit)))}.", "standing");
        }
    }

    private static void Facts(HtmlWriter html, OffsetTable table, LengthUnit unit)
    {
        var (r, p, q) = (table.Revision, table.Revision.TaughtOrigin.PositionMetres, table.Revision.TaughtOrigin.Orientation);
        html.In("dl", "", () =>
        {
            Fact(html, "digest", r.Digest);
            Fact(
                html, "calibrated",
                $"{r.Calibrated.At} by {r.Calibrated.By}: {r.Calibrated.Method}{(r.Calibrated.Note.Length > 0 ? $"; {r.Calibrated.Note}" : "")}");
            Fact(html, "taught diameter", $"{unit.Text(r.TaughtDiameterMetres)}{(r.TaughtWith is { } with ? $", with {with}" : "")}");
            var turned = new[] { q.W, q.X, q.Y, q.Z }.Select(n => PrintedNumbers.Printed(Rounded.Short(n, 6)));
            Fact(
                html, "taught origin", $"x {PrintedNumbers.Fixed(p.X, unit)}, y {PrintedNumbers.Fixed(p.Y, unit)}, "
                    + $"z {PrintedNumbers.Fixed(p.Z, unit)} {unit} in base"
                    + $"{(r.TaughtIn is { } frame ? $" ({frame})" : "")}; orientation w, x, y, z {string.Join(", ", turned)}");
            Fact(html, "diameters", $"{End("below", table.Envelope.Least, r, unit)}; {End("above", table.Envelope.Greatest, r, unit)}");
        });
    }

    private static void Numbers(HtmlWriter html, OffsetTable table, LengthUnit unit)
    {
        html.Text("h2", "Which number to enter");
        var taught = table.IsOrigin ? "the taught origin" : "this nest's position, as the taught origin and the layout give it,";
        html.Text(
            "p", $"Either the SHIFT bx by bz, where the program adds it to {taught} in the base coordinate system. Or the CORRECTED "
                + $"{Place(table).ToUpperInvariant()} x y z in base, in place of the one before. Never both, never one mixed with the other. The orientation "
                + "stays as taught.");
        html.Text(
            "p", "A program that multiplies poses needs the shift in the taught origin's own axes. That shift is NOT on this card: don't enter a number of "
                + "this card there.");
        var (nearest, line) = table.Between();
        html.Text(
            "p", $"Between two rows, using the nearer row errs by up to {unit.Up(nearest)} {unit}; linear interpolation by up to "
                + $"{unit.Up(line)} {unit}.");
        html.Text("p", OffsetText.SureFor(table));
        if (table.WhyLeftOut is { } why)
        {
            html.Text("p", $"Diameters without a row, since they would be refused: {table.LeftOut}. The first: {why.In(unit)}.");
        }
    }

    private static void Fact(HtmlWriter html, string what, string value)
    {
        html.Text("dt", what);
        html.Text("dd", value);
    }

    private static string End(string side, EnvelopeEnd end, Revision revision, LengthUnit unit) =>
        $"{side} {unit.Text(end.DiameterMetres)} refused: {Binding.Said(end, revision.Around.Obstacles, unit)}";
}
