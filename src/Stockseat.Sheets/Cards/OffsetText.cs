using Stockseat.Answers.Entries;
using Stockseat.Answers.Tabulating;
using Stockseat.Seating.Quantities;

namespace Stockseat.Sheets.Cards;

/// <summary>The numbers of a table of offsets as texts: the same digits in all its forms, and in answers.</summary>
public static class OffsetText
{
    /// <summary>The lengths of a row, in metres: diameter, shift, position.</summary>
    public static double[] Lengths(OffsetRow row) =>
        [row.DiameterMetres, row.ShiftBase.X, row.ShiftBase.Y, row.ShiftBase.Z, row.PositionMetres.X, row.PositionMetres.Y, row.PositionMetres.Z];

    /// <summary>In metres with six decimals, as served.</summary>
    public static string M(double metres) => FixedPoint.Text(metres);

    /// <summary>In inches with four decimals, beside metres in a table for machines.</summary>
    public static string Inches(double metres) => LengthUnit.Inch.Fixed(metres);

    /// <summary>An uncertainty in metres, rounded up to what is shown: never shown too small.</summary>
    public static double Up(double metres) => FixedPoint.Above(metres, FixedPoint.UsualDecimals);

    /// <summary>What is special about a row.</summary>
    public static string Marks(RowMarks marks) => string.Join(", ", new[]
    {
        marks.HasFlag(RowMarks.Least) ? "smallest" : "", marks.HasFlag(RowMarks.Taught) ? "taught" : "", marks.HasFlag(RowMarks.Greatest) ? "largest" : "",
    }.Where(m => m.Length > 0));

    /// <summary>The U that is compared with its limit: for the origin the largest of all nests.</summary>
    public static (double Along, double Across)? Sure(OffsetRow row) =>
        row.Sure is { } u ? (Up(u.AlongWorst ?? u.Along), Up(u.AcrossWorst ?? u.Across)) : null;

    /// <summary>Which U is shown, in a sentence.</summary>
    public static string SureFor(OffsetTable table) => !table.IsSure
        ? "The uncertainty is not known: the revision states none, or none for the diameter."
        : $"U (k = 2) is along | across the seat axis{(table.IsOrigin ? ", the largest of all nests" : "")}, for a diameter "
        + $"{(table.From?.Gauge is { } gauge ? $"measured with {gauge}" : "as uncertain as uncertainty.askedDiameter states")}.";
}
