using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Drawings;

/// <summary>A window on the plan at a round scale: u to the right, v up.</summary>
internal sealed class PlanView
{
    /// <summary>A neighbour within this many times the size of what is drawn at the nest is shown too, if the scale stays round.</summary>
    private const double NeighbourReach = 2.5;

    private readonly PlanVector _centre;

    private PlanView(Box window, Scale scale, PlanVector centre) => (Window, Scale, _centre) = (window, scale, centre);

    public Box Window { get; }

    public Scale Scale { get; }

    /// <summary>
    /// Chooses the largest round scale that shows the nest, its stock, the gripper, the tight spot and the near sides of the nearest neighbours.
    /// </summary>
    public static PlanView Of(DrawnPlan drawn, TightSpot? tight, Box window)
    {
        var extent = new Extent();
        Own(drawn, extent);
        if (tight is { } spot)
        {
            extent.Add(spot.Mine, 0);
            extent.Add(spot.Theirs, 0);
        }

        var stock = DrawnParts.NeighbourStock(drawn) ?? Shape.Disc(default, drawn.Plan.Taught.Centre, 0);
        var reach = NeighbourReach * Math.Max(extent.Width, extent.Height);
        var shortest = DrawnParts.Neighbours(drawn).Select(n => n.Offset.Length).FirstOrDefault();
        foreach (var (_, _, offset) in DrawnParts.Neighbours(drawn).TakeWhile(n => n.Offset.Length <= Math.Min(reach, 1.001 * shortest)))
        {
            // The near side of its stock, and a little more.
            extent.Add(stock.From + offset - (0.7 * stock.HalfWidthMetres / offset.Length * offset), 0);
        }

        return new(window, Scale.Fitting(1.05 * extent.Width, 1.05 * extent.Height, window.Width, window.Height), extent.Middle);
    }

    /// <summary>Chooses the largest round scale at which the stock and the pins of the nest are seen: nothing else is drawn.</summary>
    public static PlanView OfNest(DrawnPlan drawn, Box window)
    {
        var extent = new Extent();
        StockAndPins(drawn, extent);
        return new(window, Scale.Fitting(1.05 * extent.Width, 1.05 * extent.Height, window.Width, window.Height), extent.Middle);
    }

    /// <summary>Where a point of the plan is on the paper.</summary>
    public Point At(PlanVector p) => new(
        Window.X + (Window.Width / 2) + (Scale.PerMetre * (p.U - _centre.U)),
        Window.Y + (Window.Height / 2) - (Scale.PerMetre * (p.V - _centre.V)));

    /// <summary>The point of the plan at a point of the paper.</summary>
    public PlanVector Back(Point p) => new(
        _centre.U + ((p.X - Window.X - (Window.Width / 2)) / Scale.PerMetre),
        _centre.V - ((p.Y - Window.Y - (Window.Height / 2)) / Scale.PerMetre));

    /// <summary>A length on the paper, in millimetres.</summary>
    public double Of(double metres) => Scale.PerMetre * metres;

    private static void StockAndPins(DrawnPlan drawn, Extent extent)
    {
        foreach (var diameter in drawn.All.Where(d => d.Stock is not null))
        {
            extent.Add(diameter.Stock!.Value.From, diameter.Metres / 2);
        }

        // A face may be 20 m long; the part that the stock touches is shown anyway.
        var (first, second) = PlanShapes.Locators(drawn.Plan);
        foreach (var pin in new[] { first, second }.Where(l => l.Party.Kind == PartyKind.Pin))
        {
            extent.Add(pin.From, pin.HalfWidthMetres);
        }
    }

    private static void Own(DrawnPlan drawn, Extent extent)
    {
        StockAndPins(drawn, extent);
        foreach (var part in PlanShapes.Gripper(drawn.Plan, drawn.Worked.Metres, open: true))
        {
            foreach (var corner in part.IsBox ? Nearest.Corners(part) : [part.From])
            {
                extent.Add(corner, part.IsBox ? 0 : part.HalfWidthMetres);
            }
        }
    }

    private sealed class Extent
    {
        private PlanVector _least = new(double.PositiveInfinity, double.PositiveInfinity);
        private PlanVector _greatest = new(double.NegativeInfinity, double.NegativeInfinity);

        public double Width => _greatest.U - _least.U;

        public double Height => _greatest.V - _least.V;

        public PlanVector Middle => 0.5 * (_least + _greatest);

        public void Add(PlanVector p, double radius)
        {
            _least = new(Math.Min(_least.U, p.U - radius), Math.Min(_least.V, p.V - radius));
            _greatest = new(Math.Max(_greatest.U, p.U + radius), Math.Max(_greatest.V, p.V + radius));
        }
    }
}
