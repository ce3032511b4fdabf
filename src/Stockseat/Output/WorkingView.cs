using Stockseat.Audit.Explaining;
using Stockseat.Audit.Replaying;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Seating.Quantities;

namespace Stockseat.Cli.Output;

/// <summary>An entry computed again step by step, for a person with a pocket calculator and for programs.</summary>
internal static class WorkingView
{
    /// <summary>The widest value column; a longer value moves only its own words.</summary>
    private const int LongestColumn = 34;

    /// <summary>How many more decimals are shown here than elsewhere.</summary>
    private const int Finer = 4;

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
        var steps = lines.Where(l => !IsSentence(l)).ToList();
        var symbol = steps.Select(l => l.Symbol.Length).DefaultIfEmpty(0).Max();
        var value = Math.Min(LongestColumn, steps.Select(l => Value(l, unit).Length).DefaultIfEmpty(0).Max());
        foreach (var line in lines)
        {
            Plain.Line(IsSentence(line) ? $"  {line.Text}" : $"  {line.Symbol.PadRight(symbol)} {Value(line, unit).PadRight(value)}   {line.Text}".TrimEnd());
            if (line.Formula.Length > 0)
            {
                Plain.Line($"  {new string(' ', symbol)}   = {line.Formula}");
            }
        }
    }

    private static bool IsSentence(WorkingLine line) => line.Symbol.Length == 0 && line.Values.Count == 0;

    /// <summary>Lengths to a nanometre and less: whoever works it out again has to come to the same.</summary>
    private static string Value(WorkingLine line, LengthUnit unit) => line.Values.Count == 0 ? ""
        : line.Unit == "m" ? $"= {Numbers(line.Values, v => unit.Fixed(v, Finer))} {unit}"
        : $"= {Numbers(line.Values, v => Rounded.Short(v, 12))} {(line.Unit == "1" ? "" : line.Unit)}".TrimEnd();

    private static string Numbers(IReadOnlyList<double> values, Func<double, string> text)
    {
        var texts = values.Select(text);
        return values.Count == 1 ? texts.First() : $"({string.Join(", ", texts)})";
    }

    private static WorkingSectionShape Of(WorkingSection section) =>
        new(section.Title, section.Lines.Select(l => new WorkingLineShape(l.Symbol, l.Text, l.Formula, l.Values, l.Unit)));
}
