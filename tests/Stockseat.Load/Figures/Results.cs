using System.Globalization;
using System.Text;

namespace Stockseat.Load.Figures;

/// <summary>The results of a run, as one table.</summary>
internal sealed class Results
{
    private static readonly string[] Heads =
    [
        "what", "figure", "unit", "Stockseat", "baseline", "what the baseline is", "ratio", "ratios, least to most", "goal",
    ];

    private readonly List<Figure> _figures = [];
    private readonly List<string> _left = [];
    private readonly List<string> _notes = [];
    private readonly List<string> _beside = [];

    public Figure Add(string of, string name, string unit, string against, Goal? goal = null)
    {
        var figure = new Figure(of, name, unit, against, goal ?? Goal.None);
        _figures.Add(figure);
        return figure;
    }

    /// <summary>Says what could not be measured, and why.</summary>
    public void Leave(string what, string why) => _left.Add($"Not measured: {what}: {why}.");

    /// <summary>Says how many cores other work took during a part.</summary>
    public void Beside(string part, double cores) => _beside.Add(string.Create(CultureInfo.InvariantCulture, $"{part} {cores:F2}"));

    public void Note(string text) => _notes.Add(text);

    /// <summary>The table, in Markdown that is readable as plain text.</summary>
    public string Text(string heading)
    {
        var figures = _figures.Where(f => f.Rounds > 0).ToList(); // A run may have been stopped.
        var rows = figures.Select((f, i) => Row(f, i > 0 && figures[i - 1].Of == f.Of)).Prepend(Heads).ToList();
        var widths = Heads.Select((_, i) => rows.Max(r => r[i].Length)).ToArray();
        var text = new StringBuilder(heading).Append("\n\n");
        for (var i = 0; i < rows.Count; i++)
        {
            Append(text, rows[i].Select((cell, c) => cell.PadRight(widths[c])));
            if (i == 0)
            {
                Append(text, widths.Select(w => new string('-', w)));
            }
        }

        _left.ForEach(l => text.Append('\n').Append(l).Append('\n'));
        text.Append("\nCores that other work and the kernel's own threads took meanwhile: ").AppendJoin(", ", _beside).Append(".\n");
        _notes.ForEach(n => text.Append('\n').Append(n).Append('\n'));
        return text.ToString();
    }

    private static void Append(StringBuilder text, IEnumerable<string> cells) => text.Append("| ").AppendJoin(" | ", cells).Append(" |\n");

    private static string[] Row(Figure f, bool again) =>
    [
        again ? "" : f.Of, f.Name, f.Unit, Number(f.Subject), Number(f.Baseline), f.Against, Number(f.Ratio),
        $"{Number(f.LeastRatio)} to {Number(f.MostRatio)}", f.Verdict,
    ];

    private static string Number(double value) =>
        value.ToString(Math.Abs(value) >= 100 ? "F0" : Math.Abs(value) >= 10 ? "F1" : "F2", CultureInfo.InvariantCulture);
}
