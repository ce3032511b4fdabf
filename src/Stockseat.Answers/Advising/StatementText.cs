using System.Globalization;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Advising;

/// <summary>What a revision means in base, in plain words: for whoever adopts it, beside the machine.</summary>
public static class StatementText
{
    private const double Degree = Math.PI / 180;

    /// <summary>An axis that rises or falls less than this is called level.</summary>
    private const double LevelDegrees = 0.5;

    /// <summary>A tool that is less than this from square to the plan is called square.</summary>
    private const double SquareDegrees = 0.05;

    /// <summary>The sentences, each without a full stop at its end.</summary>
    /// <param name="statement">The statement.</param>
    /// <param name="unit">The unit of lengths.</param>
    public static IEnumerable<string> Sentences(BaseStatement statement, LengthUnit unit)
    {
        yield return $"when the diameter grows by 1 {unit}, the centre of the stock moves {Rounded.Fixed(statement.PerDiameter.Length, 3)} {unit} in base, "
            + $"mostly towards {Mostly(statement.PerDiameter)}: {Components(statement.PerDiameter)}";
        if (statement.Columns is { } columns)
        {
            yield return $"{columns.Count} columns, {unit.Text(columns.PitchMetres)} apart, run mostly towards {Mostly(columns.Direction)}: "
                + $"{Components(columns.Direction)}";
        }

        if (statement.Rows is { } rows)
        {
            yield return $"{rows.Count} rows, {unit.Text(rows.PitchMetres)} apart, run mostly towards {Mostly(rows.Direction)}: {Components(rows.Direction)}";
        }

        yield return $"the tool's z axis points {Tool(statement.ToolFromIntoPlanRadians / Degree)}";
        yield return $"the seat axis {Rise(statement.SeatAxisRiseRadians / Degree)}";
    }

    /// <summary>Where the nests are, as rows: the nest, x y z in millimetres, x y z in inches.</summary>
    public static IEnumerable<string[]> Nests(BaseStatement statement) => statement.Nests.Select(n => (string[])
    [
        string.Create(CultureInfo.InvariantCulture, $"{n.Column},{n.Row}"), Place(n.PositionMetres, LengthUnit.Millimetre),
        Place(n.PositionMetres, LengthUnit.Inch),
    ]);

    /// <summary>The base axis that a direction is nearest to: "-x".</summary>
    public static string Mostly(Vector3 direction)
    {
        var (x, y, z) = (Math.Abs(direction.X), Math.Abs(direction.Y), Math.Abs(direction.Z));
        return x >= y && x >= z ? Sign(direction.X) + "x" : y >= z ? Sign(direction.Y) + "y" : Sign(direction.Z) + "z";
    }

    private static string Components(Vector3 v) => $"x {Signed(v.X)}, y {Signed(v.Y)}, z {Signed(v.Z)}";

    private static string Signed(double value) => Rounded.Signed(Rounded.Fixed(value, 3));

    private static string Sign(double value) => value < 0 ? "-" : "+";

    private static string Place(Vector3 metres, LengthUnit unit) => $"{unit.Fixed(metres.X)}  {unit.Fixed(metres.Y)}  {unit.Fixed(metres.Z)}";

    private static string Tool(double degrees) => degrees < SquareDegrees ? "squarely into the plan"
        : degrees < 45 ? $"into the plan, {Rounded.Short(degrees, 1)} deg from square"
        : degrees > 180 - SquareDegrees ? "squarely OUT of the plan"
        : degrees > 135 ? $"OUT of the plan, {Rounded.Short(180 - degrees, 1)} deg from square"
        : $"ALONG the plan, {Rounded.Short(degrees, 1)} deg from the way into it";

    private static string Rise(double degrees) => Math.Abs(degrees) < LevelDegrees ? "is level"
        : degrees > 0 ? $"rises {Rounded.Short(degrees, 1)} deg above level"
        : $"FALLS {Rounded.Short(-degrees, 1)} deg below level";
}
