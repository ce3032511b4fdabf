using System.Globalization;
using System.Text;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Tabulating;
using Stockseat.Sheets.Cards;

namespace Stockseat.Cli.Output;

/// <summary>
/// A table of offsets as comma-separated values (RFC 4180), in metres as served. Each row says which revision it is of: rows are copied away from their heads.
/// No field needs quotes: names of fixtures and numbers hold neither commas nor quotes.
/// </summary>
internal static class OffsetTableCsv
{
    public static string Of(OffsetTable table, InForce inForce, bool inches)
    {
        string[] sure = !table.IsSure ? [] : table.IsOrigin ? ["ualong [m]", "uacross [m]", "ualongworst [m]", "uacrossworst [m]"] : ["ualong [m]", "uacross [m]"];
        var text = new StringBuilder();
        Line(text,
        [
            "fixture", "revision", "digest", "in force", "purpose", "column", "row", .. inches ? ["diameter [in]"] : (string[])[], "diameter [m]",
            "bx [m]", "by [m]", "bz [m]", "x [m]", "y [m]", "z [m]", .. sure,
        ]);
        foreach (var row in table.Rows)
        {
            Line(text,
            [
                table.Revision.Fixture, Whole(table.Revision.Number), table.Revision.Digest, inForce.Is switch { true => "yes", false => "no", null => "" },
                table.Purpose.Name(), Whole(table.Column), Whole(table.Row),
                .. inches ? [OffsetText.Inches(row.DiameterMetres)] : (string[])[],
                .. new[] { row.DiameterMetres, row.ShiftBase.X, row.ShiftBase.Y, row.ShiftBase.Z, row.PositionMetres.X, row.PositionMetres.Y, row.PositionMetres.Z }.Select(OffsetText.M),
                .. new[] { row.Sure?.Along, row.Sure?.Across, row.Sure?.AlongWorst, row.Sure?.AcrossWorst }.OfType<double>().Select(u => OffsetText.M(OffsetText.Up(u))),
            ]);
        }

        return text.ToString();
    }

    private static void Line(StringBuilder text, IEnumerable<string> fields) => text.AppendJoin(',', fields).Append("\r\n");

    private static string Whole(int value) => value.ToString(CultureInfo.InvariantCulture);
}
