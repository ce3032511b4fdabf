using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;
using Stockseat.Seating.Uncertainty;

namespace Stockseat.Answers.Tests.Uncertainty;

/// <summary>
/// The whole model drawn at random and seated again each time, without any derivative: locators that are moved, turned and resized, lobed contours, gaps,
/// gauges that are wrong. The result of a draw is the place of the stock minus the place to which the robot goes. <see cref="MonteCarloTests"/> says what is
/// shared with the code under test.
/// </summary>
internal sealed class Draws
{
    private readonly Revision _revision;
    private readonly NestInputs _known;
    private readonly double _diameter;
    private readonly DiameterInputs _inputs;
    private readonly NestOffset _at;
    private readonly int _lobes;
    private readonly PlanVector _shift;
    private readonly Random _random;

    /// <param name="lobes">The number of lobes of the contour; it matters only where a roundness is stated.</param>
    public Draws(Revision revision, double diameter, DiameterInputs inputs, int column, int row, int lobes, int seed)
    {
        (_revision, _known, _diameter, _inputs, _lobes, _random) = (revision, revision.Uncertainty!, diameter, inputs, lobes, new Random(seed));
        _at = revision.Layout.OffsetPlan(column, row);
        _shift = Centre(revision.Nest, diameter / 2) - revision.TaughtCentre;
    }

    /// <summary>The standard deviations along and across of that number of draws.</summary>
    public (double Along, double Across) Deviations(int draws)
    {
        double v = 0, vv = 0, u = 0, uu = 0;
        for (var i = 0; i < draws; i++)
        {
            var e = One();
            (v, vv, u, uu) = (v + e.V, vv + (e.V * e.V), u + e.U, uu + (e.U * e.U));
        }

        return (Math.Sqrt((vv / draws) - (v / draws * (v / draws))), Math.Sqrt((uu / draws) - (u / draws * (u / draws))));
    }

    private PlanVector One()
    {
        var gauge = Draw(_inputs.Gauge);
        var phase = Uniform() * 2 * Math.PI;
        var amplitude = _known.Roundness?.Value ?? 0;
        var seen = _lobes % 2 == 0 ? 2 * amplitude * Math.Cos(Uniform() * 2 * Math.PI) : 0;
        var radius = (_diameter - gauge - Draw(_inputs.Resolution) - Draw(_inputs.Repeatability) - Draw(_inputs.Asked) - seen) / 2;
        var taughtRadius = (_revision.TaughtDiameterMetres - Draw(_known.TaughtDiameter) - (_inputs.SameGauge ? gauge : 0)) / 2;
        var taughtNest = new Nest(Moved(_revision.Nest.First), Moved(_revision.Nest.Second));
        var nest = _at == default ? taughtNest : new Nest(Moved(_revision.Nest.First), Moved(_revision.Nest.Second));
        nest = new(Offset(nest.First, Gap(nest, radius, first: true, amplitude, phase)),
            Offset(nest.Second, Gap(nest, radius, first: false, amplitude, phase)));
        var (w, around, about) = (Draw(_known.FrameAngle), Draw(_known.FrameAngle), Draw(_known.FrameAngle));
        var distance = new PlanVector(_at.U + _shift.U, _at.V + _shift.V);
        var lean = _known.LeanHeightMetres ?? 0;
        return Centre(nest, radius) - Centre(taughtNest, taughtRadius)
            + new PlanVector((-w * distance.V) + (about * _at.W), (w * distance.U) - (around * _at.W))
            + new PlanVector(Draw(_known.Teaching), Draw(_known.Teaching))
            + new PlanVector(Draw(_known.Frame), Draw(_known.Frame))
            + new PlanVector(Draw(_known.Robot), Draw(_known.Robot))
            + new PlanVector(lean * Draw(_known.Lean), lean * Draw(_known.Lean));
    }

    /// <summary>By how much the contour and a chip keep the stock away from a locator.</summary>
    private double Gap(in Nest nest, double radius, bool first, double amplitude, double phase)
    {
        var gap = Draw(_known.Seating);
        if (amplitude > 0)
        {
            SeatSolver.TryClear(nest, radius, 0, out var seat);
            var n = first ? seat.FirstNormal : seat.SecondNormal;
            gap += amplitude * Math.Cos(_lobes * (Math.Atan2(-n.V, -n.U) - phase));
        }

        return gap;
    }

    private Locator Moved(in Locator locator)
    {
        if (locator.Kind == LocatorKind.Pin)
        {
            var place = new PlanVector(Draw(_known.LocatorPosition), Draw(_known.LocatorPosition));
            return Locator.Pin(locator.Point + place, locator.RadiusMetres + (Draw(_known.LocatorDiameter) / 2));
        }

        return Locator.Face(
            locator.Point + (Draw(_known.LocatorPosition) * locator.Normal),
            Math.Atan2(locator.Normal.V, locator.Normal.U) + Draw(_known.LocatorAngle));
    }

    private static Locator Offset(in Locator locator, double gap) => locator.Kind == LocatorKind.Pin
        ? Locator.Pin(locator.Point, locator.RadiusMetres + gap)
        : Locator.Face(locator.Point + (gap * locator.Normal), Math.Atan2(locator.Normal.V, locator.Normal.U));

    private static PlanVector Centre(in Nest nest, double radius) => SeatSolver.TryClear(nest, radius, 0, out var seat) == SeatFault.None
        ? seat.Centre
        : throw new InvalidOperationException("a draw without a seat");

    private double Draw(Input? input) => input is not { } i ? 0 : i.Distribution switch
    {
        Distribution.Rectangular => ((2 * Uniform()) - 1) * i.Value,
        _ => i.Value * Math.Sqrt(-2 * Math.Log(1 - Uniform())) * Math.Cos(2 * Math.PI * Uniform()),
    };

    private double Uniform() => _random.NextDouble();
}
