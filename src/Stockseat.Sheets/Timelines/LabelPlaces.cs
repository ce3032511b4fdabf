namespace Stockseat.Sheets.Timelines;

/// <summary>Places labels in a few lines above a timeline, each with a line down to its mark: no label covers another, no line crosses a label.</summary>
/// <param name="left">Where the room begins, in millimetres.</param>
/// <param name="right">Where it ends.</param>
/// <param name="lines">How many lines of labels there are at most.</param>
/// <param name="walls">Lines that go through all lines of labels: no label crosses one.</param>
internal sealed class LabelPlaces(double left, double right, int lines, IReadOnlyList<double> walls)
{
    private const double Apart = 1.2;

    private readonly List<Wanted> _wanted = [];

    private List<Placed> _placed = [];

    /// <summary>A wanted label: the place of the mark, the label, its width, and the row of the mark; -1: above all rows.</summary>
    public readonly record struct Wanted(double X, string Text, double Width, int Row);

    /// <summary>A label in its place; lines are counted from the top.</summary>
    public readonly record struct Placed(Wanted Label, double From, int Line)
    {
        public double X => Label.X;

        public double To => From + Label.Width;
    }

    /// <summary>Where the labels are.</summary>
    public IReadOnlyList<Placed> All => _placed;

    /// <summary>Places one more label, and those before it again. When there is no room for all of them, the new label is left out.</summary>
    /// <returns>Whether there was room.</returns>
    public bool TryAdd(in Wanted label)
    {
        if (Try([.. _wanted, label]) is not { } found)
        {
            return false;
        }

        _wanted.Add(label);
        _placed = found;
        return true;
    }

    /// <summary>
    /// To the left of a wall, labels stand left of their marks, the nearest mark first and uppermost, so that no line down meets another label. To the right
    /// of a wall it is the same, mirrored.
    /// </summary>
    private List<Placed>? Try(List<Wanted> wanted)
    {
        var wall = walls.Count > 0 ? walls[^1] : right;
        var placed = new List<Placed>();
        foreach (var label in wanted.Where(w => w.X <= wall).OrderByDescending(w => w.X).Concat(wanted.Where(w => w.X > wall).OrderBy(w => w.X)))
        {
            var (before, after) = (label.X - Apart - label.Width, label.X + Apart);
            if (Place(placed, label, label.X <= wall ? [before, after] : [after, before]) is not { } found)
            {
                return null;
            }

            placed.Add(found);
        }

        return placed;
    }

    private Placed? Place(List<Placed> placed, Wanted label, ReadOnlySpan<double> sides)
    {
        foreach (var from in sides)
        {
            for (var line = 0; line < lines; line++)
            {
                var place = new Placed(label, from, line);
                if (from >= left && place.To <= right
                    && walls.All(w => w < from - (Apart / 2) || w > place.To + (Apart / 2)) && placed.TrueForAll(other => AreApart(place, other)))
                {
                    return place;
                }
            }
        }

        return null;
    }

    private static bool AreApart(in Placed a, in Placed b) =>
        (a.Line != b.Line || a.To + Apart < b.From || b.To + Apart < a.From) && !Crosses(a, b) && !Crosses(b, a);

    /// <summary>A line leads down from a label through all lines below it.</summary>
    private static bool Crosses(in Placed line, in Placed label) =>
        line.Line <= label.Line && line.X > label.From - (Apart / 2) && line.X < label.To + (Apart / 2);
}
