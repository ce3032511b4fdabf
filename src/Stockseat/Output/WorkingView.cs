using System.Globalization;
using System.Text.Json.Nodes;
using Stockseat.Answers.Explaining;
using Stockseat.Ledger.Replaying;

namespace Stockseat.Cli.Output;

/// <summary>An entry worked out again step by step, for a person with a pocket calculator and for machines.</summary>
internal static class WorkingView
{
    /// <summary>Prints it and what the replay found; its exit code.</summary>
    public static int Print(ReplayResult result, Working working, bool json)
    {
        if (json)
        {
            var all = ReplayView.ToJson(result);
            all["serial"] = working.Serial;
            all["sections"] = Json.Array(working.Sections, ToJson);
            Json.Line(all);
            return result.ExitCode;
        }

        foreach (var section in working.Sections)
        {
            Plain.Line(section.Title);
            Print(section.Lines);
            Plain.Line("");
        }

        return ReplayView.Print(result, json: false);
    }

    private static void Print(IReadOnlyList<WorkingLine> lines)
    {
        var cells = lines.Select(l => IsSentence(l) ? [] : (string[])[l.Symbol, Formula(l), Value(l)]).ToList();
        var widths = Enumerable.Range(0, 3).Select(i => cells.Where(c => c.Length > 0).Select(c => c[i].Length).DefaultIfEmpty(0).Max()).ToArray();
        foreach (var (line, row) in lines.Zip(cells))
        {
            Plain.Line(row.Length == 0
                ? $"  {line.Text}"
                : $"  {string.Join(' ', row.Select((cell, i) => cell.PadRight(widths[i])))}   {line.Text}".TrimEnd());
        }
    }

    private static bool IsSentence(WorkingLine line) => line.Symbol.Length == 0 && line.Values.Count == 0;

    private static string Formula(WorkingLine line) => line.Formula.Length == 0 ? "" : $"= {line.Formula}";

    private static string Value(WorkingLine line)
    {
        if (line.Values.Count == 0)
        {
            return "";
        }

        var value = $"= {Numbers(line.Values, line.Unit == "m" ? "F9" : "0.############")} {(line.Unit == "1" ? "" : line.Unit)}".TrimEnd();
        return line.Unit == "m" ? $"{value} ({Numbers([.. line.Values.Select(v => v * 1000)], "F6")} mm)" : value;
    }

    private static string Numbers(IReadOnlyList<double> values, string format)
    {
        var texts = values.Select(v => v.ToString(format, CultureInfo.InvariantCulture));
        return values.Count == 1 ? texts.First() : $"({string.Join(", ", texts)})";
    }

    private static JsonObject ToJson(WorkingSection section) => new()
    {
        ["title"] = section.Title,
        ["lines"] = Json.Array(section.Lines, l => new JsonObject
        {
            ["symbol"] = l.Symbol,
            ["text"] = l.Text,
            ["formula"] = l.Formula,
            ["values"] = Json.Array(l.Values, v => double.IsFinite(v) ? JsonValue.Create(v) : JsonValue.Create(v.ToString(CultureInfo.InvariantCulture))!),
            ["unit"] = l.Unit,
        }),
    };
}
