using Stockseat.Audit.Explaining;
using Stockseat.Audit.Replaying;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Entries;

namespace Stockseat.Cli.Output;

/// <summary>An entry computed again step by step, for a person with a pocket calculator and for programs.</summary>
internal static class WorkingView
{
    /// <summary>The widest value column; a longer value moves only its own words.</summary>
    private const int LongestColumn = 34;

    /// <summary>Prints it and what the replay found; its exit code.</summary>
    public static int Print(ReplayResult result, Working working, bool json, LengthUnit unit)
    {
        if (json)
        {
            Json.Line(ReplayView.Of(result) with { Serial = working.Serial, Sections = working.Sections.Select(Of) });
            return result.ExitCode;
        }

        foreach (var section in working.Sections)
        {
            Plain.Line(section.Title);
            Print(section.Lines, unit);
            Plain.Line("");
        }

        return ReplayView.Print(result, json: false);
    }

    /// <summary>Symbol, value and words in columns; the formula below them, where it may be long.</summary>
    private static void Print(IReadOnlyList<WorkingLine> lines, LengthUnit unit)
    {
        var steps = lines.Where(l => !WorkingText.IsSentence(l)).ToList();
        var symbol = steps.Select(l => l.Symbol.Length).DefaultIfEmpty(0).Max();
        var value = Math.Min(LongestColumn, steps.Select(l => WorkingText.Value(l, unit).Length).DefaultIfEmpty(0).Max());
        foreach (var line in lines)
        {
            Plain.Line(WorkingText.IsSentence(line) ? $"  {line.Text}"
                : $"  {line.Symbol.PadRight(symbol)} {WorkingText.Value(line, unit).PadRight(value)}   {line.Text}".TrimEnd());
            if (line.Formula.Length > 0)
            {
                Plain.Line($"  {new string(' ', symbol)}   = {line.Formula}");
            }
        }
    }

    private static WorkingSectionShape Of(WorkingSection section) =>
        new(section.Title, section.Lines.Select(l => new WorkingLineShape(l.Symbol, l.Text, l.Formula, l.Values, l.Unit)));
}
