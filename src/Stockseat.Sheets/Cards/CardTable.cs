using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Tabulating;
using Stockseat.Sheets.Html;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Sheets.Cards;

/// <summary>The table of a card, in millimetres. Its header names the revision and is repeated on each page.</summary>
internal static class CardTable
{
    /// <summary>After this many rows a thicker line guides the eye.</summary>
    private const int Every = 5;

    public static void Write(HtmlWriter html, OffsetTable table, InForce inForce) => html.In("table", "", () =>
    {
        html.In("thead", "", () => Head(html, table, inForce));
        html.In("tbody", "", () =>
        {
            for (var i = 0; i < table.Rows.Count; i++)
            {
                Row(html, table.Rows[i], (i + 1) % Every == 0);
            }
        });
    });

    private static void Head(HtmlWriter html, OffsetTable table, InForce inForce)
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
            html.Wide("SHIFT in base, mm", 3, "group first");
            html.Wide(table.IsOrigin ? "CORRECTED ORIGIN in base, mm" : "CORRECTED POSITION in base, mm", 3, "group first");
            if (sure)
            {
                html.Wide("U (k = 2), mm", 2, "group first");
            }

            html.Wide("", 1);
        });
        html.In("tr", "", () =>
        {
            foreach (var name in (string[])["mm", "in", "bx", "by", "bz", "x", "y", "z", .. sure ? ["along", "across"] : (string[])[], ""])
            {
                html.Text("th", name, name is "bx" or "x" or "along" ? "first" : "");
            }
        });
    }

    private static void Row(HtmlWriter html, OffsetRow row, bool every)
    {
        var style = $"{(every ? "every " : "")}{(row.Marks.HasFlag(RowMarks.Taught) ? "taught" : "")}".TrimEnd();
        html.In("tr", style, () =>
        {
            html.Text("td", PrintedNumbers.Mm(row.DiameterMetres), "diameter");
            html.Text("td", OffsetText.Inches(row.DiameterMetres));
            html.Text("td", PrintedNumbers.Signed(row.ShiftBase.X), "first");
            html.Text("td", PrintedNumbers.Signed(row.ShiftBase.Y));
            html.Text("td", PrintedNumbers.Signed(row.ShiftBase.Z));
            html.Text("td", PrintedNumbers.Mm(row.PositionMetres.X), "first");
            html.Text("td", PrintedNumbers.Mm(row.PositionMetres.Y));
            html.Text("td", PrintedNumbers.Mm(row.PositionMetres.Z));
            if (OffsetText.Sure(row) is var (along, across))
            {
                html.Text("td", PrintedNumbers.Mm(along), "first");
                html.Text("td", PrintedNumbers.Mm(across));
            }

            html.Text("td", OffsetText.Marks(row.Marks), "mark");
        });
    }
}
