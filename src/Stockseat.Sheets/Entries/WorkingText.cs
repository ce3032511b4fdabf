using Stockseat.Audit.Explaining;
using Stockseat.Seating.Quantities;

namespace Stockseat.Sheets.Entries;

/// <summary>The values of a working, as people are shown them.</summary>
public static class WorkingText
{
    /// <summary>How many more decimals are shown here than elsewhere.</summary>
    private const int Finer = 4;

    /// <summary>Whether a line is a sentence, without a symbol and a value.</summary>
    public static bool IsSentence(WorkingLine line) => line.Symbol.Length == 0 && line.Values.Count == 0;

    /// <summary>"= 46.2025000 mm"; "" without a value. Lengths to a nanometre and less: whoever works it out again has to come to the same.</summary>
    public static string Value(WorkingLine line, LengthUnit unit) => line.Values.Count == 0 ? ""
        : line.Unit == "m" ? $"= {Numbers(line.Values, v => unit.Fixed(v, Finer))} {unit}"
        : $"= {Numbers(line.Values, v => Rounded.Short(v, 12))} {(line.Unit == "1" ? "" : line.Unit)}".TrimEnd();

    private static string Numbers(IReadOnlyList<double> values, Func<double, string> text)
    {
        var texts = values.Select(text);
        return values.Count == 1 ? texts.First() : $"({string.Join(", ", texts)})";
    }
}
