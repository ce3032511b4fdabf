using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Tabulating;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Html;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Sheets.Cards;

/// <summary>The table of a card, in the display's unit; the diameter alone in both units. Its header names the revision and is repeated on each page.</summary>
internal static class CardTable
{
    /// <summary>After this many rows a thicker line guides the eye.</summary>
    private const int Every = 5;

    public static void Write(HtmlWriter html, OffsetTable table, InForce inForce, LengthUnit unit) => html.In("table", "", () =>
    {
        html.In("thead", "", () => Head(html, table, inForce, unit));
        html.In("tbody", "", () =>
        {
            for (var i = 0; i < table.Rows.Count; i++)
            {
                Row(html, table.Rows[i], (i + 1) % Every == 0, unit);
            }
        });
    });

    private static void Head(HtmlWriter html, OffsetTable table, InForce inForce, LengthUnit unit)
    {
        var sure = table.IsSure;
        html.In("tr", "", () => html.Wide(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{table.Revision.Fixture} revision {table.Revision.Number}, digest {table.Revision.Digest[..12]}, {table.Purpose.Name()} at nest "
                    + $"{table.Column},{table.Row}. Void after any adoption{(inForce.Is == true ? "" : $"; {inForce.Head} when printed")}."),
            sure ? 11 : 9, "left"));
        html.In("tr", "", () =>
        {
            html.Wide("diameter", 2, "group");
            html.Wide($"SHIFT in base, {unit.Name}", 3, "group first");
            html.Wide(table.IsOrigin ? $"CORRECTED ORIGIN in base, {unit.Name}" : $"CORRECTED POSITION in base, {unit.Name}", 3, "group first");
            if (sure)
            {
                html.Wide($"U (k = 2), {unit.Name}", 2, "group first");
            }

            html.Wide("", 1);
        });
        html.In("tr", "", () =>
        {
            foreach (var name in (string[])[unit.Symbol, Other(unit).Symbol, "bx", "by", "bz", "x", "y", "z", .. sure ? ["along", "across"] : (string[])[], ""])
            {
                html.Text("th", name, name is "bx" or "x" or "along" ? "first" : "");
            }
        });
    }

    private static void Row(HtmlWriter html, OffsetRow row, bool every, LengthUnit unit)
    {
        var style = $"{(every ? "every " : "")}{(row.Marks.HasFlag(RowMarks.Taught) ? "taught" : "")}".TrimEnd();
        html.In("tr", style, () =>
        {
            html.Text("td", PrintedNumbers.Fixed(row.DiameterMetres, unit), "diameter");
            html.Text("td", PrintedNumbers.Fixed(row.DiameterMetres, Other(unit)));
            html.Text("td", PrintedNumbers.Signed(row.ShiftBase.X, unit), "first");
            html.Text("td", PrintedNumbers.Signed(row.ShiftBase.Y, unit));
            html.Text("td", PrintedNumbers.Signed(row.ShiftBase.Z, unit));
            html.Text("td", PrintedNumbers.Fixed(row.PositionMetres.X, unit), "first");
            html.Text("td", PrintedNumbers.Fixed(row.PositionMetres.Y, unit));
            html.Text("td", PrintedNumbers.Fixed(row.PositionMetres.Z, unit));
            if (OffsetText.Sure(row) is var (along, across))
            {
                html.Text("td", unit.Up(along), "first");
                html.Text("td", unit.Up(across));
            }

            html.Text("td", OffsetText.Marks(row.Marks), "mark");
        });
    }

    /// <summary>A caliper may show either.</summary>
    private static LengthUnit Other(LengthUnit unit) => unit == LengthUnit.Inch ? LengthUnit.Millimetre : LengthUnit.Inch;
}
