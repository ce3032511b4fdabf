using Stockseat.Fixtures.Revisions;
using System.Globalization;
using System.Text;
using Stockseat.Seating.Quantities;

namespace Stockseat.Sheets.Svg;

/// <summary>
/// Writes SVG in millimetres of the paper, y downward. Texts are escaped. It refers to nothing outside, and has no ids except
/// those that a page gives, so that one page can have several drawings.
/// </summary>
internal sealed class SvgWriter
{
    private readonly StringBuilder _text = new();

    /// <summary>The width of a line and its dash pattern, both in millimetres; "" for a solid line.</summary>
    public readonly record struct Pen(double Width, string Dashes = "", string Fill = "none", string Colour = "#000");

    /// <summary>The greatest width of a text, in millimetres: the font is not known here, so the letters count as wide ones.</summary>
    public static double WidthOf(string text, double size, bool bold = false) => (bold ? 1.12 : 1) * size * text.Sum(c => c switch
    {
        ' ' or '.' or ',' or ':' or ';' or '\'' or 'i' or 'j' or 'l' or 'I' or '|' => 0.34,
        'f' or 't' or 'r' or '-' or '(' or ')' or '/' => 0.42,
        'm' or 'w' or 'M' or 'W' or '%' or '…' => 1,
        >= 'A' and <= 'Z' => 0.75,
        < '\u0250' => 0.64,
        _ => 1,
    });

    /// <summary>A text cut off at its end so that it fits into a width.</summary>
    public static string Fitted(string text, double size, double width, bool bold = false)
    {
        if (WidthOf(text, size, bold) <= width)
        {
            return text;
        }

        var most = text.Length - 1;
        while (most > 0 && WidthOf(text[..most], size, bold) > width - size)
        {
            most--;
        }

        return text[..most] + "…";
    }

    /// <summary>A text broken between words into lines that fit into a width; a word that is wider has a line of its own.</summary>
    public static List<string> Wrapped(string text, double size, double width)
    {
        var lines = new List<string> { "" };
        foreach (var word in text.Split(' '))
        {
            var longer = lines[^1].Length == 0 ? word : $"{lines[^1]} {word}";
            if (lines[^1].Length > 0 && WidthOf(longer, size) > width)
            {
                lines.Add(word);
            }
            else
            {
                lines[^1] = longer;
            }
        }

        return lines;
    }

    /// <summary>A whole document.</summary>
    /// <param name="title">What it shows, for people who can't see it.</param>
    /// <param name="width">In millimetres.</param>
    /// <param name="height">In millimetres.</param>
    /// <param name="draw">Draws it.</param>
    public static string Document(string title, double width, double height, Action<SvgWriter> draw)
    {
        var svg = new SvgWriter();
        svg._text.Append(CultureInfo.InvariantCulture, $"""
            <svg xmlns="http://www.w3.org/2000/svg" width="{N(width)}mm" height="{N(height)}mm" viewBox="0 0 {N(width)} {N(height)}" font-family="sans-serif">
            <title>{Escape(title)}</title>
            <rect x="0" y="0" width="{N(width)}" height="{N(height)}" fill="#fff"/>

            """);
        draw(svg);
        return svg._text.Append("</svg>\n").ToString();
    }

    /// <summary>A drawing for the inside of a page.</summary>
    /// <param name="part">Its title and description on the page.</param>
    /// <param name="width">In millimetres.</param>
    /// <param name="height">In millimetres.</param>
    public string Inside(PagePart part, double width, double height) => string.Create(CultureInfo.InvariantCulture, $"""
        <svg role="img" aria-labelledby="{Escape(part.Id)}-title {Escape(part.Id)}-desc" width="{N(width)}mm" height="{N(height)}mm"
            viewBox="0 0 {N(width)} {N(height)}" font-family="sans-serif">
        <title id="{Escape(part.Id)}-title">{Escape(part.Title)}</title>
        <desc id="{Escape(part.Id)}-desc">{Escape(part.Description)}</desc>
        {_text}</svg>

        """);

    /// <summary>Clips to a box; the coordinates inside stay those of the page.</summary>
    public void Window(Box box, Action draw)
    {
        _text.Append(CultureInfo.InvariantCulture, $"<svg {At(box)} viewBox=\"{N(box.X)} {N(box.Y)} {N(box.Width)} {N(box.Height)}\">\n");
        draw();
        _text.Append("</svg>\n");
    }

    /// <summary>Several things that belong together, named by a class.</summary>
    public void Group(string name, Action draw)
    {
        _text.Append(CultureInfo.InvariantCulture, $"<g class=\"{name}\">\n");
        draw();
        _text.Append("</g>\n");
    }

    public void Line(Point from, Point to, Pen pen) =>
        _text.Append(CultureInfo.InvariantCulture, $"<line x1=\"{N(from.X)}\" y1=\"{N(from.Y)}\" x2=\"{N(to.X)}\" y2=\"{N(to.Y)}\"{Drawn(pen)}/>\n");

    public void Circle(Point centre, double radius, Pen pen) =>
        _text.Append(CultureInfo.InvariantCulture, $"<circle cx=\"{N(centre.X)}\" cy=\"{N(centre.Y)}\" r=\"{N(radius)}\"{Drawn(pen)}/>\n");

    public void Rectangle(Box box, Pen pen) => _text.Append(CultureInfo.InvariantCulture, $"<rect {At(box)}{Drawn(pen)}/>\n");

    public void Polygon(IEnumerable<Point> points, Pen pen) => Points("polygon", points, pen);

    public void Polyline(IEnumerable<Point> points, Pen pen) => Points("polyline", points, pen);

    /// <summary>An arrow's head at a point.</summary>
    public void Head(Point tip, Point from, double size)
    {
        var (dx, dy) = (tip.X - from.X, tip.Y - from.Y);
        var length = Math.Sqrt((dx * dx) + (dy * dy));
        if (!(length > 1e-9))
        {
            return;
        }

        (dx, dy) = (dx / length * size, dy / length * size);
        Polygon([tip, new(tip.X - dx - (dy / 3), tip.Y - dy + (dx / 3)), new(tip.X - dx + (dy / 3), tip.Y - dy - (dx / 3))], new(0.1, Fill: "#000"));
    }

    /// <summary>A text on its base line.</summary>
    /// <param name="at">Where.</param>
    /// <param name="text">What.</param>
    /// <param name="size">How high, in millimetres.</param>
    /// <param name="anchor">start, middle or end.</param>
    /// <param name="bold">Whether it is bold.</param>
    /// <param name="halo">Whether lines are kept out around it.</param>
    public void Text(Point at, string text, double size, string anchor = "start", bool bold = false, bool halo = false) =>
        _text.Append(CultureInfo.InvariantCulture, $"<text x=\"{N(at.X)}\" y=\"{N(at.Y)}\" font-size=\"{N(size)}\"")
            .Append(anchor == "start" ? "" : $" text-anchor=\"{anchor}\"")
            .Append(bold ? " font-weight=\"bold\"" : "")
            .Append(halo ? " stroke=\"#fff\" stroke-width=\"1\" stroke-linejoin=\"round\" paint-order=\"stroke\"" : "")
            .Append(CultureInfo.InvariantCulture, $">{Escape(text)}</text>\n");

    /// <summary>The text without characters that XML can't carry or that change the direction of writing.</summary>
    internal static string Escape(string text)
    {
        var escaped = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            _ = rune.Value switch
            {
                '<' => escaped.Append("&lt;"),
                '>' => escaped.Append("&gt;"),
                '&' => escaped.Append("&amp;"),
                '"' => escaped.Append("&quot;"),
                '\'' => escaped.Append("&#39;"),
                0xFFFE or 0xFFFF => escaped.Append('?'),
                _ => Rune.GetUnicodeCategory(rune) is UnicodeCategory.Control
                    or UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator
                    ? escaped.Append('?')
                    : escaped.Append(rune.ToString()),
            };
        }

        return escaped.ToString();
    }

    private static string At(Box box) => $"x=\"{N(box.X)}\" y=\"{N(box.Y)}\" width=\"{N(box.Width)}\" height=\"{N(box.Height)}\"";

    private static string Drawn(Pen pen) =>
        $" fill=\"{pen.Fill}\" stroke=\"{pen.Colour}\" stroke-width=\"{N(pen.Width)}\"" + (pen.Dashes.Length > 0 ? $" stroke-dasharray=\"{pen.Dashes}\"" : "");

    /// <summary>To 0.1 µm on the paper, never with an exponent.</summary>
    private static string N(double value) => Rounded.Short(value, 4);

    private void Points(string element, IEnumerable<Point> points, Pen pen) =>
        _text.Append(CultureInfo.InvariantCulture, $"<{element} points=\"{string.Join(' ', points.Select(p => $"{N(p.X)},{N(p.Y)}"))}\"{Drawn(pen)}/>\n");
}
