using System.Globalization;
using Stockseat.Answers.Cautions;
using Stockseat.Audit.Showing;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Quantities;
using Stockseat.Seating.Seats;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Drawings;

/// <summary>
/// One page in portrait, to hang up at the machine: what the revision means in base, the plan to scale, the diameters, the gap diagram, the cautions.
/// </summary>
public static class FixtureSheet
{
    private const double Margin = 10;

    private const double Diagram = 54;

    private const double Row = 4.8;

    /// <summary>Where the title ends.</summary>
    private const double Below = 41;

    private const double CautionSize = 2.7;

    private static readonly string Cautions = string.Join(' ', Caution.Full("This drawing"));

    /// <summary>The page as SVG.</summary>
    /// <param name="revision">The revision.</param>
    /// <param name="purpose">What for: "pick" or "place".</param>
    /// <param name="drawn">What is drawn of its plan.</param>
    /// <param name="paper">The paper.</param>
    public static string Draw(Revision revision, string purpose, DrawnPlan drawn, PaperSize paper)
    {
        var (width, height, inner) = (paper.Width, paper.Height, paper.Width - (2 * Margin));
        drawn = drawn with { Frame = revision.Frame };
        var statement = new StatementBlock(revision, drawn.Unit, inner);
        var cautions = SvgWriter.Wrapped(Cautions, CautionSize, inner - 4);
        var bottom = height - Margin - (cautions.Count * 3.5) - 3;
        var notes = Notes(drawn, inner);
        var table = (Row * (drawn.Asked.Count + 2)) + (3.6 * notes.Count) + 2;
        var side = revision.Grip is null ? 0 : LengthFigure.Height;
        return SvgWriter.Document($"{revision.Fixture} revision {revision.Number}: plan and gaps", width, height, svg =>
        {
            svg.Group("statement", () => statement.Draw(svg, new(Margin, Below)));
            var top = Below + statement.Height;
            var plan = new Box(Margin, top, inner, bottom - Diagram - table - side - 2 - top);
            Scale scale = default;
            svg.Group("plan", () => scale = PlanDrawing.Draw(svg, drawn, plan, StatementBlock.FreeAtFoot));
            svg.Group("title", () => Title(svg, revision, $"{purpose}, stand-off {drawn.Unit.Text(drawn.Plan.StandOffMetres)}", scale, drawn.Unit, width));
            svg.Group("diameters", () => Table(svg, drawn, plan.Bottom + Row, width));
            if (revision.Grip is { } grip)
            {
                svg.Group("length", () => LengthFigure.Draw(
                    svg, grip, LengthFigure.AtLimit(revision), drawn.Unit, new(Margin, bottom - Diagram - side, inner, side)));
            }

            for (var i = 0; i < notes.Count; i++)
            {
                svg.Text(new(Margin, bottom - Diagram - side - (3.6 * (notes.Count - 1 - i)) - 3), notes[i], CautionSize);
            }

            svg.Group("gaps", () => GapDiagram.Draw(svg, drawn, new(Margin, bottom - Diagram, inner, Diagram - 2)));
            svg.Rectangle(new(Margin, bottom, inner, height - Margin - bottom), new(0.5));
            for (var i = 0; i < cautions.Count; i++)
            {
                svg.Text(new(Margin + 2, bottom + 4 + (3.5 * i)), cautions[i], CautionSize);
            }
        });
    }

    private static void Title(SvgWriter svg, Revision revision, string purpose, Scale scale, LengthUnit unit, double width)
    {
        var name = string.Create(CultureInfo.InvariantCulture, $"{revision.Fixture}, revision {revision.Number}");
        svg.Text(new(Margin, 17), name, Math.Min(8, 8 * 125 / SvgWriter.WidthOf(name, 8, bold: true)), bold: true);
        svg.Text(new(width - Margin, 13), purpose, 4.2, "end", bold: true);
        svg.Text(new(width - Margin, 18), $"plan {scale}, lengths in {unit.Name}", 3.4, "end");
        var c = revision.Calibrated;
        var lines = new[] { $"digest {revision.Digest[..12]}, calibrated {c.At} by {c.By}", c.Note.Length > 0 ? $"{c.Method}; {c.Note}" : c.Method };
        for (var i = 0; i < lines.Length; i++)
        {
            svg.Text(new(Margin, 24 + (4.6 * i)), SvgWriter.Fitted(lines[i], 3.4, width - (2 * Margin)), 3.4);
        }

        svg.Rectangle(new(Margin, 31.5, width - (2 * Margin), 7.5), new(0.8));
        svg.Text(new(width / 2, 36.6), $"VOID AFTER ANY ADOPTION: compare the digest with what \"stockseat fixture list\" says.", 3.5, "middle", bold: true);
    }

    private static void Table(SvgWriter svg, DrawnPlan drawn, double y, double width)
    {
        double[] columns = [Margin + 13, Margin + 53, Margin + 71, Margin + 75, width - Margin];
        void Cells(double at, bool bold, params string[] cells)
        {
            string[] anchors = ["start", "end", "end", "start", "end"];
            for (var i = 0; i < cells.Length; i++)
            {
                svg.Text(new(columns[i], at), cells[i], 3, anchors[i], bold);
            }
        }

        Cells(y, true, "diameter", "shift v", "shift u", "smallest gap, and where", "limits");
        svg.Line(new(Margin, y + 1.3), new(width - Margin, y + 1.3), new(0.3));
        foreach (var d in drawn.All)
        {
            y += Row;
            PlanDrawing.Sample(svg, new(Margin, y - 1), 11, d);
            var shift = Shift(drawn, d.Metres);
            var gap = d.Tightest is { } g ? $"{drawn.Unit.Gap(g.Metres)}: {Wording.Of(g, drawn.Plan.Obstacles)}" : d.Stock is null ? "no seat" : "none";
            Cells(
                y, false, $"{d.Key}  {drawn.Unit.Short(d.Metres)}{(d == drawn.Taught ? " taught" : "")}", Signed(shift?.V, drawn.Unit),
                Signed(shift?.U, drawn.Unit),
                SvgWriter.Fitted(gap, 3, 89), drawn.Envelope?.Holds(d.Metres) == true ? "within" : "OUTSIDE");
        }
    }

    private static PlanVector? Shift(DrawnPlan drawn, double metres) =>
        SeatSolver.TryClear(drawn.Plan.Nest, metres / 2, drawn.Plan.StandOffMetres, out var clear) == SeatFault.None ? clear.Centre - drawn.Plan.Taught.Centre
            : null;

    private static string Signed(double? metres, LengthUnit unit) => metres is { } m ? unit.SignedShort(m) : "";

    private static List<string> Notes(DrawnPlan drawn, double inner)
    {
        var plan = drawn.Plan;
        var unstated = new[]
        {
            (plan.GapMetres is null, "wanted gap"), (plan.Gripper is null, "gripper"), (plan.Gripper is { PalmDiameterMetres: null }, "palm"),
            (plan.Obstacles.Count == 0, "obstacles"),
        }.Where(u => u.Item1).Select(u => u.Item2);
        var (column, row) = DrawnParts.SeenFrom(drawn);
        var beside = plan.Obstacles.Count > 0
            ? string.Create(
                CultureInfo.InvariantCulture, $" Obstacles and neighbours are those of nest {column},{row}; the nests in the drawing are counted from it.")
            : plan.Columns * plan.Rows > 1 ? " Nests are counted from the nest that is worked at, 0,0; it has all neighbours that any nest has." : "";
        var jaws = plan.Gripper is null ? "" : $" The jaws are around the largest diameter drawn: grey closed, dashed open.";
        var all = string.Join(", ", unstated);
        return SvgWriter.Wrapped(
            $"The shift is from the taught seat, along v and "
                + $"u.{beside}{jaws}{(all.Length > 0 ? $" Not stated, so not counted: {all}." : "")}", CautionSize, inner);
    }
}
