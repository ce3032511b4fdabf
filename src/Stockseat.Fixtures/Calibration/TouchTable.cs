using System.Globalization;
using System.Text;
using nietras.SeparatedValues;
using Stockseat.Fixtures.Reading;
using Stockseat.Seating.Quantities;
using Range = Stockseat.Fixtures.Reading.Range;

namespace Stockseat.Fixtures.Calibration;

/// <summary>
/// Reads a table of touched nests: comma-separated values as in RFC 4180, or separated by semicolons or tabs. The header row names the columns, in any order,
/// the lengths with their unit: nest (or column and row), diameter [mm], x [mm], y [mm], z [mm].
/// </summary>
public static class TouchTable
{
    /// <summary>No fixture has more nests to touch than this.</summary>
    public const int MostRows = 10_000;

    /// <summary>Reads a table; every fault is reported with its line.</summary>
    /// <param name="utf8">The file's bytes.</param>
    /// <param name="faults">Where faults go.</param>
    public static IReadOnlyList<TouchedRow> Read(ReadOnlyMemory<byte> utf8, Faults faults)
    {
        string text;
        try
        {
            text = new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(utf8.Span).TrimStart('\uFEFF');
        }
        catch (DecoderFallbackException)
        {
            faults.Add("", "is not UTF-8 text; save the table as CSV in UTF-8");
            return [];
        }

        if (text.Contains('\0', StringComparison.Ordinal) || string.IsNullOrWhiteSpace(text))
        {
            faults.Add("", "is not a table of separated values; a header row such as nest,diameter [mm],x [mm],y [mm],z [mm] was expected");
            return [];
        }

        var lines = Lines(text, faults);
        return faults.None && lines.Count > 0 && TouchColumns.Read(lines[0].Cells, lines[0].Line, faults) is { } columns ? Rows(lines, columns, faults) : [];
    }

    private static List<(int Line, string[] Cells)> Lines(string text, Faults faults)
    {
        var lines = new List<(int, string[])>();
        char? separator = null;
        var number = 0;
        foreach (var line in text.AsSpan().EnumerateLines())
        {
            number++;
            if (line.IsWhiteSpace())
            {
                continue;
            }

            separator ??= line.Contains(';') ? ';' : line.Contains('\t') ? '\t' : ',';
            if (Cells(line.ToString(), separator.Value) is not { } cells)
            {
                faults.Add($"line {number}", "has a quote that does not end; a value in quotes must end in the same line");
            }
            else if (cells.Any(c => c.Length > 0))
            {
                lines.Add((number, cells));
            }
        }

        if (lines.Count > MostRows + 1)
        {
            faults.Add("", $"has {lines.Count - 1} rows; at most {MostRows} are allowed");
            return [];
        }

        return lines;
    }

    /// <summary>The values of one line; null when a quote in the line does not end.</summary>
    private static string[]? Cells(string line, char separator)
    {
        if (line.Count(c => c == '"') % 2 != 0)
        {
            return null;
        }

        using var reader = Sep.New(separator).Reader(o => o with { HasHeader = false, Unescape = true, DisableColCountCheck = true, Trim = SepTrim.All })
            .FromText(line);
        foreach (var row in reader)
        {
            var cells = new string[row.ColCount];
            for (var i = 0; i < cells.Length; i++)
            {
                cells[i] = row[i].ToString();
            }

            return cells;
        }

        return [];
    }

    private static List<TouchedRow> Rows(List<(int Line, string[] Cells)> lines, TouchColumns columns, Faults faults)
    {
        var rows = new List<TouchedRow>();
        foreach (var (line, cells) in lines.Skip(1))
        {
            if (cells.Length != columns.Count)
            {
                faults.Add(
                    $"line {line}", $"has {cells.Length} values; {columns.Count} were expected, as in the header row. A decimal comma makes two values of "
                        + "one, and a nest such as 2,1 needs quotes");
            }
            else if (ReadRow(line, cells, columns, faults) is { } row)
            {
                rows.Add(row);
            }
        }

        if (lines.Count == 1)
        {
            faults.Add("", "has a header row, but no touched nest below it");
        }

        return rows;
    }

    private static TouchedRow? ReadRow(int line, string[] cells, TouchColumns columns, Faults faults)
    {
        var nest = columns.Nest is { } n
            ? Nest(line, columns, n, cells[n], faults)
            : Index(line, "column", cells[columns.Column!.Value], faults) is { } c
            && Index(line, "row", cells[columns.Row!.Value], faults) is { } r ? (c, r) : null;
        var diameter = Length(line, columns.Diameter, cells, Range.Size, faults);
        var (x, y, z) = (
            Length(line, columns.X, cells, Range.Place, faults), Length(line, columns.Y, cells, Range.Place, faults),
            Length(line, columns.Z, cells, Range.Place, faults));
        return nest is var (column, row) && diameter is var (d, dText) && x is var (a, aText) && y is var (b, bText) && z is var (e, eText)
            ? new(line, new(column, row, d, new(a, b, e)), dText, aText, bText, eText)
            : null;
    }

    private static (int Column, int Row)? Nest(int line, TouchColumns columns, int at, string text, Faults faults)
    {
        var parts = text.Split(',');
        if (parts.Length == 2 && Whole(parts[0].Trim()) is { } column && Whole(parts[1].Trim()) is { } row)
        {
            return (column, row);
        }

        faults.Add(
            $"line {line}", $"nest is '{Shown(text)}'; column and row from 0, such as 2,1, were "
                + $"expected{(columns.Count > at ? ", in quotes where commas separate the values" : "")}");
        return null;
    }

    private static int? Index(int line, string name, string text, Faults faults)
    {
        var value = Whole(text);
        if (value is null)
        {
            faults.Add($"line {line}", $"{name} is '{Shown(text)}'; a whole number from 0 to 9999 was expected");
        }

        return value;
    }

    private static int? Whole(string text) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var value) && value <= 9_999 ? value : null;

    private static (double Metres, string Text)? Length(int line, LengthColumn column, string[] cells, Range range, Faults faults)
    {
        var cell = cells[column.Index];
        var text = $"{cell} {column.Unit}";
        var fault = Quantity.TryParseLength(text, allowSign: range.From < 0, out var metres);
        if (fault == QuantityFault.None && range.Holds(metres))
        {
            return (metres, text);
        }

        faults.Add($"line {line}", fault == QuantityFault.None
            ? $"{column.Name} is '{Shown(cell)}' {column.Unit}; {range.Text("m")} was expected"
            : $"{column.Name} is '{Shown(cell)}'; a plain number in {column.Unit} with a point, such as 412.30, was expected");
        return null;
    }

    private static string Shown(string text) => text.Length > 40 ? text[..40] + "…" : text;
}
