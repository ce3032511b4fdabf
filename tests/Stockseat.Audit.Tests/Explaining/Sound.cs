using Stockseat.Audit.Explaining;

namespace Stockseat.Audit.Tests.Explaining;

/// <summary>The rules that every working keeps.</summary>
internal static class Sound
{
    private static readonly string[] Units = ["m", "deg", "s", "kg", "1"];

    public static void Check(Working working) => Assert.Empty(Faults(working));

    public static IReadOnlyList<string> Faults(Working working)
    {
        var faults = new List<string>();
        if (working.Sections.Count == 0)
        {
            faults.Add("no section");
        }

        foreach (var title in working.Sections.CountBy(s => s.Title).Where(t => t.Value > 1 || t.Key.Length == 0))
        {
            faults.Add($"title '{title.Key}' {title.Value} times");
        }

        foreach (var section in working.Sections)
        {
            if (section.Lines.Count == 0)
            {
                faults.Add($"{section.Title}: no line");
            }

            faults.AddRange(
                section.Lines.Where(l => l.Symbol.Length > 0).CountBy(l => l.Symbol).Where(s => s.Value > 1)
                    .Select(s => $"{section.Title}: {s.Key} {s.Value} times"));
            faults.AddRange(section.Lines.SelectMany(Faults).Select(f => $"{section.Title}: {f}"));
        }

        return faults;
    }

    private static IEnumerable<string> Faults(WorkingLine line)
    {
        if (string.IsNullOrWhiteSpace(line.Text))
        {
            yield return $"{line.Symbol} has no text";
        }

        if (line.Values.Count > 0 != line.Symbol.Length > 0)
        {
            yield return $"'{line.Text}' has {line.Values.Count} values and the symbol '{line.Symbol}'";
        }

        if (line.Values.Count > 0 ? !Units.Contains(line.Unit) : line.Unit.Length > 0 || line.Formula.Length > 0)
        {
            yield return $"{line.Symbol} has {line.Values.Count} values, the unit '{line.Unit}', the formula '{line.Formula}'";
        }

        if (!line.Values.All(double.IsFinite))
        {
            yield return $"{line.Symbol} is not finite";
        }
    }
}
