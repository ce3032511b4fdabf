using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;

namespace Stockseat.Sheets.Drawings;

/// <summary>The parts of a drawn plan by kind, and the nests around the one that is worked at.</summary>
internal static class DrawnParts
{
    /// <summary>This many nests on each side are considered: the window shows fewer.</summary>
    private const int Around = 40;

    /// <summary>
    /// The nests around the one that is worked at, nearest first, each with its place; nests behind each other along w count once.
    /// These are all neighbours that any nest has. With obstacles, which have a fixed place, they are only the neighbours of the nest that has the
    /// obstacles there.
    /// </summary>
    public static IEnumerable<(int Column, int Row, PlanVector Offset)> Neighbours(DrawnPlan drawn)
    {
        var plan = drawn.Plan;
        var (columns, rows) = (Side(plan.Columns, plan.ColumnStep), Side(plan.Rows, plan.RowStep));
        var (atColumn, atRow) = SeenFrom(drawn);
        bool IsThere(int column, int row) =>
            plan.Obstacles.Count == 0 || (atColumn + column >= 0 && atColumn + column < plan.Columns && atRow + row >= 0 && atRow + row < plan.Rows);
        return from column in Enumerable.Range(-columns, (2 * columns) + 1)
               from row in Enumerable.Range(-rows, (2 * rows) + 1)
               where (column, row) != (0, 0) && IsThere(column, row)
               let offset = PlanShapes.Offset(plan, column, row)
               orderby offset.Length
               select (column, row, offset);
    }

    /// <summary>The nest relative to which the obstacles are drawn: that of the tight spot, when an obstacle is the tight spot.</summary>
    public static (int Column, int Row) SeenFrom(DrawnPlan drawn)
    {
        if (drawn.Worked.Tightest is not { } gap)
        {
            return (0, 0);
        }

        // Otherwise the first nest that has the neighbour at the tight spot.
        var (column, row) = (-gap.Theirs.Column, -gap.Theirs.Row);
        return gap.Theirs.Kind == PartyKind.Obstacle ? (column, row) : (Math.Max(0, column), Math.Max(0, row));
    }

    /// <summary>An obstacle's place, relative to the nest that is worked at.</summary>
    public static Shape Obstacle(DrawnPlan drawn, int number)
    {
        var (column, row) = SeenFrom(drawn);
        return Of(drawn.Plan.Obstacles[number - 1], number).Moved(PlanShapes.Offset(drawn.Plan, -column, -row));
    }

    /// <summary>Stock of another nest, relative to the nest that is worked at, before it is moved to its place.</summary>
    public static Shape? NeighbourStock(DrawnPlan drawn) =>
        drawn.Plan.NeighbourDiameterMetres is { } other ? PlanShapes.Stock(drawn.Plan, other) : drawn.Worked.Stock;

    /// <summary>Where a part at a gap is; null when it is not in the plan, such as a nest behind another one.</summary>
    public static Shape? Find(DrawnPlan drawn, in Party party, Jaws jaws)
    {
        var plan = drawn.Plan;
        var (kind, number, offset) = (party.Kind, party.Number, PlanShapes.Offset(plan, party.Column, party.Row));
        if ((party.Column, party.Row) != (0, 0) && offset.Length == 0)
        {
            return null;
        }

        var (first, second) = PlanShapes.Locators(plan);
        Shape? shape = kind switch
        {
            PartyKind.Stock => (party.Column, party.Row) == (0, 0) ? (jaws == Jaws.Closed ? PlanShapes.Gripped(plan, drawn.Worked.Metres) : drawn.Worked.Stock)
                : NeighbourStock(drawn),
            PartyKind.Jaw or PartyKind.Palm => PlanShapes.Gripper(plan, drawn.Worked.Metres, jaws == Jaws.Open)
                .Where(s => s.Party.Kind == kind && s.Party.Number == number).Select(s => (Shape?)s).FirstOrDefault(),
            PartyKind.Pin or PartyKind.Face => number == 1 ? first : second,
            _ => number >= 1 && number <= plan.Obstacles.Count ? Of(plan.Obstacles[number - 1], number) : null,
        };
        return shape?.Moved(offset);
    }

    private static Shape Of(Obstacle obstacle, int number) =>
        Shape.Capsule(new(PartyKind.Obstacle, number), obstacle.From, obstacle.To, obstacle.DiameterMetres / 2);

    private static int Side(int count, PlanVector step) => step.Length == 0 ? 0 : Math.Min(count - 1, Around);
}
