using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Envelopes;

/// <summary>How nests repeat in the plan. Of ten thousand by ten thousand nests only the few within reach are counted through.</summary>
internal readonly record struct NestGrid(PlanVector ColumnStep, PlanVector RowStep, int Columns, int Rows)
{
    /// <summary>The columns and rows whose offsets may lie within a radius of a place; all others lie outside.</summary>
    /// <param name="middle">The place.</param>
    /// <param name="radius">The radius.</param>
    /// <param name="least">The first column and the first row of the grid.</param>
    public Box Within(PlanVector middle, double radius, (int Column, int Row) least)
    {
        var cross = PlanVector.Cross(ColumnStep, RowStep);
        return (Columns > 1, Rows > 1) switch
        {
            (false, false) => new(0, 0, 0, 0),
            (true, false) =>
                Columned(PlanVector.Dot(middle, ColumnStep) / Square(ColumnStep), radius / ColumnStep.Length, new(least.Column, Columns - 1, 0, 0)),
            (false, true) => Rowed(PlanVector.Dot(middle, RowStep) / Square(RowStep), radius / RowStep.Length, new(0, 0, least.Row, Rows - 1)),
            _ when cross == 0 => new(least.Column, Columns - 1, least.Row, Rows - 1),
            _ => Rowed(
                PlanVector.Cross(ColumnStep, middle) / cross, Math.Abs(radius * ColumnStep.Length / cross),
                Columned(
                    PlanVector.Cross(middle, RowStep) / cross, Math.Abs(radius * RowStep.Length / cross), new(least.Column, Columns - 1, least.Row, Rows - 1))),
        };
    }

    private static double Square(PlanVector v) => PlanVector.Dot(v, v);

    private static Box Columned(double middle, double reach, Box all) =>
        all with { FromColumn = From(middle - reach, all.FromColumn, all.ToColumn), ToColumn = To(middle + reach, all.FromColumn, all.ToColumn) };

    private static Box Rowed(double middle, double reach, Box all) =>
        all with { FromRow = From(middle - reach, all.FromRow, all.ToRow), ToRow = To(middle + reach, all.FromRow, all.ToRow) };

    /// <summary>One more than needed, for rounding; one past the last when all lie before it.</summary>
    private static int From(double value, int least, int most) => (int)Math.Clamp(Math.Floor(value), least, most + 1);

    private static int To(double value, int least, int most) => (int)Math.Clamp(Math.Ceiling(value), least - 1, most);

    /// <summary>The ranges of columns and rows; the last ones belong to them.</summary>
    internal readonly record struct Box(int FromColumn, int ToColumn, int FromRow, int ToRow)
    {
        public long Count => Math.Max(0L, ToColumn - FromColumn + 1) * Math.Max(0L, ToRow - FromRow + 1);

        public IEnumerable<(int Column, int Row)> All()
        {
            for (var row = FromRow; row <= ToRow; row++)
            {
                for (var column = FromColumn; column <= ToColumn; column++)
                {
                    yield return (column, row);
                }
            }
        }
    }
}
