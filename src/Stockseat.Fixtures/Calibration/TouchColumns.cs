using System.Text.RegularExpressions;
using Stockseat.Fixtures.Reading;
using Stockseat.Seating.Quantities;

namespace Stockseat.Fixtures.Calibration;

/// <summary>Which value is in which column of a table of touched nests.</summary>
internal sealed partial record TouchColumns(int Count, int? Nest, int? Column, int? Row, LengthColumn Diameter, LengthColumn X, LengthColumn Y, LengthColumn Z)
{
    private static readonly string[] Lengths = ["diameter", "x", "y", "z"];

    /// <summary>Reads the header row; null when it has faults.</summary>
    public static TouchColumns? Read(string[] cells, int line, Faults faults)
    {
        if (!cells.Any(c => Header().IsMatch(c)))
        {
            faults.Add(
                $"line {line}",
                $"'{string.Join(", ", cells)}' names no known column; a header row such as nest,diameter [mm],x [mm],y [mm],z [mm] was expected");
            return null;
        }

        var places = new Dictionary<string, (int Index, string Unit)>(StringComparer.Ordinal);
        var sound = true;
        for (var i = 0; i < cells.Length; i++)
        {
            var match = Header().Match(cells[i]);
            var fault = !match.Success
                ? $"'{cells[i]}' is not a known column; nest (or column and row), diameter [mm], x [mm], y [mm] and z [mm] were expected"
                : !places.TryAdd(match.Groups["name"].Value, (i, match.Groups["unit"].Value))
                ? $"the column {match.Groups["name"].Value} appears twice; keep one"
                : UnitFault(match);
            if (fault is not null)
            {
                faults.Add($"line {line}", fault);
                sound = false;
            }
        }

        if (!sound)
        {
            return null;
        }

        var missing = Lengths.Where(name => !places.ContainsKey(name)).Select(name => $"{name} [mm]").ToList();
        var (nest, column, row) = (places.ContainsKey("nest"), places.ContainsKey("column"), places.ContainsKey("row"));
        if (nest ? column || row : !(column && row))
        {
            missing.Insert(0, "nest, or column and row");
        }

        if (missing.Count > 0)
        {
            faults.Add($"line {line}", $"the columns {string.Join(", ", missing)} were expected; the header row has {string.Join(", ", cells)}");
            return null;
        }

        LengthColumn Of(string name) => new(name, places[name].Index, places[name].Unit);
        return new(
            cells.Length, nest ? places["nest"].Index : null, column ? places["column"].Index : null, row ? places["row"].Index : null,
            Of("diameter"), Of("x"), Of("y"), Of("z"));
    }

    private static string? UnitFault(Match header)
    {
        var (name, unit) = (header.Groups["name"].Value, header.Groups["unit"].Value);
        if (!Lengths.Contains(name))
        {
            return unit.Length == 0 ? null : $"the column {name} has the unit {unit}; it counts nests and takes none";
        }

        return unit.Length == 0 ? $"the column {name} states no unit; write {name} [mm], or m, um, in"
            : Quantity.TryParseLength($"1 {unit}", allowSign: false, out _) != QuantityFault.None
            ? $"the column {name} is in '{unit}', which is not a known unit; mm, m, um or in was expected"
            : null;
    }

    [GeneratedRegex(
        @"\A(?<name>nest|column|row|diameter|x|y|z)\s*(\[\s*(?<unit>\p{L}{1,20})\s*\]|\(\s*(?<unit>\p{L}{1,20})\s*\))?\z",
        RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Header();
}
