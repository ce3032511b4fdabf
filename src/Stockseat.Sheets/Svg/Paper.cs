namespace Stockseat.Sheets.Svg;

/// <summary>A point of the paper, in millimetres, y downward.</summary>
internal readonly record struct Point(double X, double Y);

/// <summary>A part of the paper, in millimetres.</summary>
internal readonly record struct Box(double X, double Y, double Width, double Height)
{
    public double Right => X + Width;

    public double Bottom => Y + Height;

    /// <summary>Whether a circle touches it.</summary>
    public bool Meets(Point centre, double radius)
    {
        var (dx, dy) = (centre.X - Math.Clamp(centre.X, X, Right), centre.Y - Math.Clamp(centre.Y, Y, Bottom));
        return (dx * dx) + (dy * dy) <= radius * radius;
    }

    public bool Has(Point p) => p.X >= X && p.X <= Right && p.Y >= Y && p.Y <= Bottom;

    /// <summary>The part of a line inside the box; null when there is none (Liang and Barsky).</summary>
    public (Point From, Point To)? Clip(Point from, Point to)
    {
        var (dx, dy, begin, end) = (to.X - from.X, to.Y - from.Y, 0.0, 1.0);
        foreach (var (p, q) in ((double, double)[])[(-dx, from.X - X), (dx, Right - from.X), (-dy, from.Y - Y), (dy, Bottom - from.Y)])
        {
            if (p == 0)
            {
                if (q < 0)
                {
                    return null;
                }
            }
            else if (p < 0)
            {
                begin = Math.Max(begin, q / p);
            }
            else
            {
                end = Math.Min(end, q / p);
            }
        }

        return begin > end ? null : (new(from.X + (begin * dx), from.Y + (begin * dy)), new(from.X + (end * dx), from.Y + (end * dy)));
    }
}
