using System.Globalization;
using System.Text;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Tabulating;
using Stockseat.Sheets.Cards;

namespace Stockseat.Cli.Output;

/// <summary>
/// A table of offsets as comma-separated values, in metres as served. Each row names its revision, since rows are copied without their header.
/// </summary>
internal static class OffsetTableCsv
{
    public static string Of(OffsetTable table, InForce inForce, bool inches)
    {
        string[] sure = !table.IsSure ? []
            : table.IsOrigin ? ["ualong [m]", "uacross [m]", "ualongworst [m]", "uacrossworst [m]"] : ["ualong [m]", "uacross [m]"];
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using (var csv = new CsvTable(text,
        [
            "fixture", "revision", "digest", "in force", "purpose", "column", "row", .. inches ? ["diameter [in]"] : (string[])[], "diameter [m]",
            "bx [m]", "by [m]", "bz [m]", "x [m]", "y [m]", "z [m]", .. sure,
        ]))
        {
            foreach (var row in table.Rows)
            {
                csv.Add(Fields(table, row, inForce, inches));
            }
        }

        return text.ToString();
    }

    private static IReadOnlyList<string> Fields(OffsetTable table, OffsetRow row, InForce inForce, bool inches) =>
    [
        table.Revision.Fixture, Whole(table.Revision.Number), table.Revision.Digest, inForce.Is switch { true => "yes", false => "no", null => "" },
        table.Purpose.Name(), Whole(table.Column), Whole(table.Row),
        .. inches ? [OffsetText.Inches(row.DiameterMetres)] : (string[])[],
        .. OffsetText.Lengths(row).Select(OffsetText.M),
        .. new[] { row.Sure?.Along, row.Sure?.Across, row.Sure?.AlongWorst, row.Sure?.AcrossWorst }.OfType<double>()
        .Select(u => OffsetText.M(OffsetText.Up(u))),
    ];

    private static string Whole(int value) => value.ToString(CultureInfo.InvariantCulture);
}
