using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Envelopes;

/// <summary>All parts of a plan that may meet, the nearest nests first.</summary>
internal sealed class PlanParts
{
    /// <summary>The most nests, and the most nests for each obstacle, that are looked at. No real fixture has as many, but a file may state them.</summary>
    public const long Most = 100_000;

    private readonly Plan _plan;
    private readonly NestGrid _grid;
    private readonly List<Part> _mine = [];
    private readonly double _gripperReach;

    public PlanParts(Plan plan)
    {
        _plan = plan;
        var (columns, rows) = InPlan(plan);
        _grid = new(plan.ColumnStep, plan.RowStep, columns, rows);
        _mine.Add(new(Motion.Stock, Shape.Disc(new(PartyKind.Stock), default, 0)));
        if (plan.StandOffMetres > 0)
        {
            _mine.Add(new(Motion.Gripped, Shape.Disc(new(PartyKind.Stock), default, 0)));
        }

        if (plan.Gripper is not { } gripper)
        {
            return;
        }

        for (var jaw = 1; jaw <= gripper.Jaws; jaw++)
        {
            var (sin, cos) = Math.SinCos(gripper.ClockingRadians + (2 * Math.PI * (jaw - 1) / gripper.Jaws));
            var box = Shape.Box(new(PartyKind.Jaw, jaw), default, gripper.JawThicknessMetres * new PlanVector(cos, sin), gripper.JawWidthMetres);
            _mine.Add(new(Motion.Closed, box));
            _mine.Add(new(Motion.Open, box));
        }

        if (gripper.PalmDiameterMetres is { } palm)
        {
            _mine.Add(new(Motion.Palm, Shape.Disc(new(PartyKind.Palm), default, palm / 2)));
        }

        _gripperReach = Math.Max(gripper.JawThicknessMetres + (gripper.JawWidthMetres / 2), (gripper.PalmDiameterMetres ?? 0) / 2);
    }

    /// <summary>The wanted gap, in metres. When none is stated, parts may touch.</summary>
    public double WantedMetres => _plan.GapMetres ?? 0;

    /// <summary>How far at most any part of the worked nest reaches from the centre of the stock, in metres.</summary>
    public double Reach(in Stance stance) =>
        (stance.Clear - stance.Seat).Length + Math.Max(stance.RadiusMetres, stance.OpenRadiusMetres) + _gripperReach;

    /// <summary>By how much at most any gap can become smaller between two diameters, in metres.</summary>
    public static double Moved(in Stance a, in Stance b) =>
        (2 * (a.Seat - b.Seat).Length) + (a.Clear - b.Clear)
            .Length + Math.Abs(a.DiameterMetres - b.DiameterMetres) + Math.Abs(a.OpenRadiusMetres - b.OpenRadiusMetres);

    /// <summary>Whether the stock of all other nests has a seat.</summary>
    public bool NeighboursAreSeated =>
        _plan.NeighbourDiameterMetres is not { } diameter || SeatSolver.TrySeat(_plan.Nest, diameter / 2, out _) == SeatFault.None;

    /// <summary>Whether a part that is elsewhere can be met at all between two diameters.</summary>
    public bool IsNear(in Part theirs, in Stance from, in Stance to) =>
        Distances.FromPoint(from.Seat, theirs.At(from)) <= Window(from, to);

    /// <summary>A part that is farther than this from the centre of the stock can't be met between two diameters.</summary>
    private double Window(in Stance from, in Stance to) => Reach(from) + WantedMetres + Moved(from, to);

    /// <summary>What the gripper may meet in its own nest: the locators; and the stock, with open jaws.</summary>
    public IEnumerable<Pair> Own()
    {
        var (first, second) = PlanShapes.Locators(_plan);
        foreach (var mine in _mine)
        {
            if (mine.Motion == Motion.Open)
            {
                yield return new(mine, _mine[0], 0);
            }

            if (mine.Party.Kind != PartyKind.Stock && !PassesOver(mine, _plan.LocatorTopMetres))
            {
                yield return new(mine, new(Motion.Fixed, first), WantedMetres, Face(_plan.Nest.First));
                yield return new(mine, new(Motion.Fixed, second), WantedMetres, Face(_plan.Nest.Second));
            }
        }
    }

    /// <summary>
    /// The parts elsewhere that can be met between two diameters: stock and locators of the other nests, and obstacles. Each nest of the fixture sees an
    /// obstacle at another place.
    /// </summary>
    public IEnumerable<Part> Others(Stance from, Stance to)
    {
        foreach (var obstacle in Obstacles(from, to))
        {
            yield return obstacle;
        }

        foreach (var theirs in Nests(NestsWithin(from, to)))
        {
            yield return theirs;
        }
    }

    /// <summary>The parts of the nearest nests. They are judged first: usually one of them is the limit before anything farther away can be met.</summary>
    public IEnumerable<Part> Next()
    {
        var (columns, rows) = (Math.Min(_grid.Columns, 2), Math.Min(_grid.Rows, 2));
        return Nests(new(1 - columns, columns - 1, 1 - rows, rows - 1));
    }

    /// <summary>
    /// All parts elsewhere. When there are more than <see cref="Most"/>, only those of the nearest nests, and those that can be met at a diameter.
    /// </summary>
    public IEnumerable<Part> Others(Stance stance)
    {
        var all = new NestGrid.Box(0, _grid.Columns - 1, 0, _grid.Rows - 1);
        var nests = new NestGrid.Box(1 - _grid.Columns, _grid.Columns - 1, 1 - _grid.Rows, _grid.Rows - 1);
        if (nests.Count + (all.Count * _plan.Obstacles.Count) <= Most)
        {
            return Enumerable.Range(1, _plan.Obstacles.Count).SelectMany(number => all.All().Select(at => Obstacle(number, at.Column, at.Row)))
                .Concat(Nests(nests));
        }

        return Looks(stance, stance) > Most ? Next() : Next().Concat(Others(stance, stance)).DistinctBy(part => part.Party);
    }

    /// <summary>How many nests, and nests for each obstacle, <see cref="Others(Stance, Stance)"/> looks at.</summary>
    public long Looks(Stance from, Stance to) =>
        NestsWithin(from, to).Count + Enumerable.Range(1, _plan.Obstacles.Count).Sum(number => ObstacleWithin(number, from, to).Count);

    private IEnumerable<Part> Nests(NestGrid.Box box)
    {
        var (first, second) = PlanShapes.Locators(_plan);
        foreach (var (column, row, by) in box.All().Where(at => at != (0, 0)).Select(at => (at.Column, at.Row, By: PlanShapes.Offset(_plan, at.Column, at.Row)))
            .OrderBy(at => at.By.Length))
        {
            if (Stock(column, row, by) is { } stock)
            {
                yield return stock;
            }

            if (HasEnds(_plan.Nest.First))
            {
                yield return Locator(first, column, row, by);
            }

            if (HasEnds(_plan.Nest.Second))
            {
                yield return Locator(second, column, row, by);
            }
        }
    }

    private NestGrid.Box NestsWithin(in Stance from, in Stance to)
    {
        var (seat, reach) = (from.Seat, from.RadiusMetres);
        var (first, second) = PlanShapes.Locators(_plan);
        foreach (var theirs in new[] { (_plan.Nest.First, first), (_plan.Nest.Second, second) }.Where(l => HasEnds(l.Item1)).Select(l => (Shape?)l.Item2)
            .Append(_plan.NeighbourDiameterMetres is { } other ? PlanShapes.Stock(_plan, other) : null).OfType<Shape>())
        {
            reach = Math.Max(reach, Math.Max((theirs.From - seat).Length, (theirs.To - seat).Length) + theirs.HalfWidthMetres);
        }

        return _grid.Within(default, Window(from, to) + reach, (1 - _grid.Columns, 1 - _grid.Rows));
    }

    private NestGrid.Box ObstacleWithin(int number, in Stance from, in Stance to)
    {
        var obstacle = _plan.Obstacles[number - 1];
        var middle = 0.5 * (obstacle.From + obstacle.To);
        return _grid.Within(middle - from.Seat, Window(from, to) + ((obstacle.To - obstacle.From).Length / 2) + (obstacle.DiameterMetres / 2), (0, 0));
    }

    /// <summary>A face whose ends are not stated would cut through all other nests, so only its own nest sees it.</summary>
    private static bool HasEnds(in Locator locator) =>
        locator.Kind == LocatorKind.Pin || (double.IsFinite(locator.FromMetres) && double.IsFinite(locator.ToMetres));

    /// <summary>The pairs that include a part of another nest, or an obstacle.</summary>
    public IEnumerable<Pair> With(Part theirs)
    {
        var top = theirs.Party.Kind switch
        {
            PartyKind.Stock => _plan.StockLengthMetres,
            PartyKind.Obstacle => _plan.Obstacles[theirs.Party.Number - 1].TopMetres,
            _ => _plan.LocatorTopMetres,
        };
        foreach (var mine in _mine)
        {
            if (!PassesOver(mine, top))
            {
                yield return new(mine, theirs, WantedMetres);
            }
        }
    }

    /// <summary>The gaps along w between lying bars of a known length; they are the same for all diameters.</summary>
    public IEnumerable<GapReading> AlongW()
    {
        var (columns, rows) = LieAlongW(_plan);
        if (_plan.StockLengthMetres is not { } length)
        {
            yield break;
        }

        var gap = Math.Abs(_plan.AlongWMetres) - length;
        if (columns)
        {
            yield return new(new(PartyKind.Stock), new(PartyKind.Stock, 0, 1), Jaws.None, gap);
        }

        if (rows)
        {
            yield return new(new(PartyKind.Stock), new(PartyKind.Stock, 0, 0, 1), Jaws.None, gap);
        }
    }

    /// <summary>Whether columns, or rows, repeat along w: such nests do not meet in the plan.</summary>
    private static (bool Columns, bool Rows) LieAlongW(Plan plan) =>
        (plan.Columns > 1 && plan.ColumnStep == default, plan.Rows > 1 && plan.RowStep == default);

    private static (int Columns, int Rows) InPlan(Plan plan)
    {
        var (columns, rows) = LieAlongW(plan);
        return (columns ? 1 : plan.Columns, rows ? 1 : plan.Rows);
    }

    private IEnumerable<Part> Obstacles(Stance from, Stance to)
    {
        for (var number = 1; number <= _plan.Obstacles.Count; number++)
        {
            foreach (var (column, row) in ObstacleWithin(number, from, to).All())
            {
                yield return Obstacle(number, column, row);
            }
        }
    }

    private Part Obstacle(int number, int column, int row)
    {
        var obstacle = _plan.Obstacles[number - 1];
        var shape = Shape.Capsule(new(PartyKind.Obstacle, number, -column, -row), obstacle.From, obstacle.To, obstacle.DiameterMetres / 2);
        return new(Motion.Fixed, shape.Moved(-1 * PlanShapes.Offset(_plan, column, row)));
    }

    private Part? Stock(int column, int row, PlanVector by)
    {
        var party = new Party(PartyKind.Stock, 0, column, row);
        if (_plan.NeighbourDiameterMetres is not { } diameter)
        {
            return new(Motion.Stock, Shape.Disc(party, by, 0));
        }

        return SeatSolver.TrySeat(_plan.Nest, diameter / 2, out var seat) == SeatFault.None
            ? new(Motion.Fixed, Shape.Disc(party, by + seat.Centre, diameter / 2))
            : null;
    }

    private static Part Locator(Shape shape, int column, int row, PlanVector by) =>
        new(Motion.Fixed, shape.Moved(by) with { Party = shape.Party with { Column = column, Row = row } });

    private static Locator? Face(Locator locator) => locator.Kind == LocatorKind.Face ? locator : null;

    /// <summary>Whether a part of the gripper stays above a thing of a given height. When one of the two heights is not stated, it does not.</summary>
    private bool PassesOver(in Part mine, double? topMetres) => mine.Motion switch
    {
        Motion.Stock or Motion.Gripped => false,
        Motion.Palm => _plan.Gripper!.PalmHeightMetres >= topMetres,
        _ => _plan.Gripper!.JawTipHeightMetres >= topMetres,
    };
}
