namespace Stockseat.Fixtures.Drawing.Timelines;

/// <summary>Places labels in a few lines above a timeline, each with a line down to its mark: none over another, no line through a label.</summary>
internal sealed class LabelPlaces(double left, double right, int lines)
{
    private const double Apart = 1.2;

    private readonly List<Placed> _placed = [];

    public readonly record struct Placed(double X, double From, double To, int Line, string Text);

    public IReadOnlyList<Placed> All => _placed;

    /// <summary>Places a label where there is room.</summary>
    /// <param name="x">Where its mark is.</param>
    /// <param name="text">The label.</param>
    /// <param name="width">How wide it is.</param>
    /// <returns>Whether there was.</returns>
    public bool TryAdd(double x, string text, double width)
    {
        for (var line = 0; line < lines; line++)
        {
            foreach (var from in new[] { x + Apart, x - Apart - width })
            {
                var label = new Placed(x, from, from + width, line, text);
                if (from >= left && label.To <= right && _placed.TrueForAll(other => AreApart(label, other)))
                {
                    _placed.Add(label);
                    return true;
                }
            }
        }

        return false;
    }

    /// <summary>Lines are counted from the top, and lead down from a label through all below it.</summary>
    private static bool AreApart(in Placed a, in Placed b) =>
        (a.Line != b.Line || a.To + Apart < b.From || b.To + Apart < a.From) && !Crosses(a, b) && !Crosses(b, a);

    private static bool Crosses(in Placed line, in Placed label) => line.Line <= label.Line && line.X > label.From - (Apart / 2) && line.X < label.To + (Apart / 2);
}
