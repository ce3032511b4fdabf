using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Numbers;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Drawings;

/// <summary>The stock from the side, w to the right: where the gripper holds it at the taught length, and at others.</summary>
public static class LengthFigure
{
    /// <summary>The height that it needs for the taught length and two others, in millimetres.</summary>
    public const double Height = 27;

    private const double Words = 58;

    private const double Size = 3;

    private const double Bar = 3.4;

    private const double Step = 6.4;

    private static readonly string[] Dashes = ["", "6 2"];

    /// <summary>The figure as SVG.</summary>
    /// <param name="grip">How the place follows the length.</param>
    /// <param name="lengthsMetres">One or two other lengths, in metres.</param>
    /// <param name="unit">The unit of lengths.</param>
    /// <param name="widthMillimetres">Its width.</param>
    /// <param name="id">Its name on the page that contains it; null: it is a document of its own.</param>
    public static string Draw(Grip grip, IReadOnlyList<double> lengthsMetres, LengthUnit unit, double widthMillimetres, string? id = null)
    {
        if (id is null)
        {
            return SvgWriter.Document("The length of the stock", widthMillimetres, Height, All);
        }

        var svg = new SvgWriter();
        All(svg);
        return svg.Inside(new(id, "The length of the stock", $"The stock from the side, to scale, and where it is held. {Said(grip, lengthsMetres, unit)}"),
            widthMillimetres, Height);

        void All(SvgWriter on) => Draw(on, grip, lengthsMetres, unit, new(3, 1, widthMillimetres - 6, Height - 2));
    }

    /// <summary>The lengths at the limit of a revision, the shortest and the longest; none when it states no limit.</summary>
    public static IReadOnlyList<double> AtLimit(Revision revision) => revision is { Grip: { Share: > 0 } grip, Limits.LengthMetres: { } limit }
        ? [grip.TaughtLengthMetres - (limit / grip.Share), grip.TaughtLengthMetres + (limit / grip.Share)] : [];

    /// <summary>The shifts, in words.</summary>
    public static string Said(Grip grip, IReadOnlyList<double> lengthsMetres, LengthUnit unit) => string.Join(' ', lengthsMetres.Select(l =>
        $"Stock of {unit.Text(l)} is held {unit.Signed(grip.Shift(l))} {unit} along w from where stock of the taught "
            + $"{unit.Text(grip.TaughtLengthMetres)} is."));

    /// <summary>Draws it into a part of a page.</summary>
    internal static void Draw(SvgWriter svg, Grip grip, IReadOnlyList<double> lengthsMetres, LengthUnit unit, Box box)
    {
        var longest = lengthsMetres.Append(grip.TaughtLengthMetres).Max();
        var scale = (box.Width - Words - 12) / longest;
        var ground = new Point(box.X + 3, box.Y + 1);
        var foot = ground.Y + (Step * (lengthsMetres.Count + 1));
        svg.Line(ground, new(ground.X, foot), new(0.7));
        for (var y = ground.Y + 2; y <= foot; y += 2)
        {
            svg.Line(new(ground.X, y), new(ground.X - 2, y - 2), new(0.25));
        }

        var taught = Held(grip, grip.TaughtLengthMetres, scale, ground.X);
        One(svg, grip, ("T", grip.TaughtLengthMetres), new(0.3, "4 1 1 1"), scale, ground, $"T {unit.Text(grip.TaughtLengthMetres)}, taught", box);
        for (var i = 0; i < lengthsMetres.Count; i++)
        {
            var (length, at) = (lengthsMetres[i], new Point(ground.X, ground.Y + (Step * (i + 1))));
            var key = "L" + PrintedNumbers.Whole(i + 1); // A and B are diameters.
            One(svg, grip, (key, length), new(i == 0 ? 0.7 : 0.5, Dashes[i % 2]), scale, at,
                $"{key} {unit.Text(length)}: {unit.Signed(grip.Shift(length))} {unit} along w", box);
            svg.Line(new(taught, ground.Y + 5), new(taught, at.Y + 5), new(0.25, "1 1"));
        }

        var axis = new Point(ground.X, foot + 3.5);
        svg.Line(axis, new(axis.X + 16, axis.Y), new(0.5));
        svg.Head(new(axis.X + 16, axis.Y), axis, 2.5);
        svg.Text(new(axis.X + 18, axis.Y + 1), SvgWriter.Fitted(
            $"w, from the side. The bold stroke is where the gripper holds; share {grip.Share:0.###}.", 2.6, box.Width - 21), 2.6);
    }

    private static void One(
        SvgWriter svg, Grip grip, (string Key, double Metres) stock, SvgWriter.Pen pen, double scale, Point at, string said, Box box)
    {
        svg.Rectangle(new(at.X, at.Y + 1, stock.Metres * scale, Bar), pen);
        var held = Held(grip, stock.Metres, scale, at.X);
        svg.Line(new(held, at.Y), new(held, at.Y + Bar + 2), new(1));
        svg.Text(new(box.Right - Words, at.Y + Bar), SvgWriter.Fitted(said, Size, Words), Size, bold: stock.Key != "T");
    }

    /// <summary>Where stock is held: at its free end with a share of 1, in its middle with a half.</summary>
    private static double Held(Grip grip, double metres, double scale, double from) => from + (grip.Share * metres * scale);
}
