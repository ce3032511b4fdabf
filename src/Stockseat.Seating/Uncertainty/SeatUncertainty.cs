using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Uncertainty;

/// <summary>
/// How uncertain the corrected position of a nest is, by the law of propagation (JCGM 100:2008, first order; from memory) through the seat's own system N·dC =
/// 1·dR + e.
/// <para>Symbols: n₁, n₂ the contacts' normals; N = [n₁ᵀ; n₂ᵀ]; eᵢ = drᵢ + nᵢ·dPᵢ for a pin, nᵢ·dFᵢ − (t·(C − F))dφ for a face, t = n turned by +90°;
/// gᵢ = N⁻¹·(unit i): how the centre moves when contact i does. The mark ₜ means: at the taught diameter.</para>
/// The position served is the taught one plus C(R) − C(Rₜ). At the taught nest the same locators act in both terms, each with its own normals: N(R)⁻¹e(R) −
/// N(Rₜ)⁻¹e(Rₜ), so errors common to both cancel. Any other nest has locators of its own, and a turn of the fixture acts over the distance.
/// </summary>
/// <param name="nest">The nest's locators.</param>
/// <param name="seat">The seat at the diameter used.</param>
/// <param name="taught">The part that comes from the seat at the taught diameter.</param>
/// <param name="known">How well the fixture is known.</param>
/// <param name="diameter">How well the diameter is known.</param>
/// <param name="shift">C(R + g) − C(Rₜ), in metres.</param>
public sealed class SeatUncertainty(in Nest nest, in Seat seat, TaughtTerms taught, NestInputs known, in DiameterInputs diameter, PlanVector shift)
{
    private readonly Nest _nest = nest;
    private readonly Seat _seat = seat;
    private readonly Seat _taught = taught.Seat;
    private readonly PlanVector _byFirst = seat.Solve(1, 0);
    private readonly PlanVector _bySecond = seat.Solve(0, 1);
    private readonly DiameterInputs _diameter = diameter;

    /// <summary>The same from the taught seat alone.</summary>
    public SeatUncertainty(in Nest nest, in Seat seat, in Seat taught, NestInputs known, in DiameterInputs diameter, PlanVector shift)
        : this(nest, seat, new TaughtTerms(taught), known, diameter, shift)
    {
    }

    /// <summary>U of the position of one nest.</summary>
    /// <param name="at">The offset of the nest; nest 0,0 is the taught one.</param>
    public ExpandedUncertainty At(NestOffset at)
    {
        var sum = new Sum();
        Walk(ref sum, at);
        return ExpandedUncertainty.Of(sum.Total);
    }

    /// <summary>Passes every input on, with its sensitivities at a nest.</summary>
    internal void Walk<T>(ref T sink, NestOffset at)
        where T : IComponentSink
    {
        Diameter(ref sink);
        var sameNest = at == default;
        Locator(ref sink, _nest.First, _seat.FirstNormal, _taught.FirstNormal, _byFirst, taught.ByFirst, sameNest);
        Locator(ref sink, _nest.Second, _seat.SecondNormal, _taught.SecondNormal, _bySecond, taught.BySecond, sameNest);
        if (known.Lean is { } lean && known.LeanHeightMetres is { } height)
        {
            sink.Add(Component.Lean, lean, height, 0);
            sink.Add(Component.Lean, lean, 0, height);
        }

        Everywhere(ref sink, Component.Teaching, known.Teaching);
        Everywhere(ref sink, Component.Frame, known.Frame);
        Everywhere(ref sink, Component.Robot, known.Robot);
        if (known.FrameAngle is { } angle)
        {
            // ω × d for turns about w, u and v: over the whole distance from the taught seat to this one.
            sink.Add(Component.FrameAngle, angle, at.U + shift.U, -(at.V + shift.V));
            sink.Add(Component.FrameAngle, angle, -at.W, 0);
            sink.Add(Component.FrameAngle, angle, 0, at.W);
        }
    }

    private void Diameter<T>(ref T sink)
        where T : IComponentSink
    {
        var (here, there) = (0.5 * _seat.PerRadius, 0.5 * _taught.PerRadius);
        if (_diameter.Gauge is { } gauge)
        {
            Add(ref sink, Component.Gauge, gauge, _diameter.SameGauge ? here - there : here);
        }

        if (_diameter.Resolution is { } resolution)
        {
            Add(ref sink, Component.Resolution, resolution, here);
        }

        if (_diameter.Repeatability is { } repeatability)
        {
            Add(ref sink, Component.Repeatability, repeatability, here);
        }

        if (_diameter.Asked is { } asked)
        {
            Add(ref sink, Component.AskedDiameter, asked, here);
        }

        if (known.TaughtDiameter is { } taughtDiameter)
        {
            Add(ref sink, Component.TaughtDiameter, taughtDiameter, -1 * there);
        }

        if (known.Roundness is { } roundness)
        {
            var (along, across) = Lobing.Worst(_seat);
            sink.Add(Component.Roundness, roundness, along, across);
        }
    }

    /// <summary>One locator and the gap at its contact.</summary>
    private void Locator<T>(
        ref T sink, in Locator locator, PlanVector n, PlanVector nTaught, PlanVector g, PlanVector gTaught, bool sameNest)
        where T : IComponentSink
    {
        if (known.Seating is { } gap)
        {
            Add(ref sink, Component.Seating, gap, g);
        }

        var pin = locator.Kind == LocatorKind.Pin;
        if (known.LocatorDiameter is { } size && pin)
        {
            Both(ref sink, Component.LocatorDiameter, size, 0.5 * g, 0.5 * gTaught, sameNest);
        }

        if (known.LocatorPosition is { } place)
        {
            if (pin)
            {
                Both(ref sink, Component.LocatorPosition, place, n.U * g, nTaught.U * gTaught, sameNest);
                Both(ref sink, Component.LocatorPosition, place, n.V * g, nTaught.V * gTaught, sameNest);
            }
            else
            {
                Both(ref sink, Component.LocatorPosition, place, g, gTaught, sameNest);
            }
        }

        if (known.LocatorAngle is { } angle && !pin)
        {
            var t = n.Turned;
            var (arm, armTaught) = (PlanVector.Dot(t, _seat.Centre - locator.Point), PlanVector.Dot(t, _taught.Centre - locator.Point));
            Both(ref sink, Component.LocatorAngle, angle, -arm * g, -armTaught * gTaught, sameNest);
        }
    }

    /// <summary>An input that acts on both seats: at the taught nest on both at once, at another nest on each separately.</summary>
    private static void Both<T>(ref T sink, Component component, in Input input, PlanVector here, PlanVector there, bool sameNest)
        where T : IComponentSink
    {
        if (sameNest)
        {
            Add(ref sink, component, input, here - there);
        }
        else
        {
            Add(ref sink, component, input, here);
            Add(ref sink, component, input, -1 * there);
        }
    }

    private static void Everywhere<T>(ref T sink, Component component, in Input? input)
        where T : IComponentSink
    {
        if (input is { } either)
        {
            sink.Add(component, either, 1, 0);
            sink.Add(component, either, 0, 1);
        }
    }

    private static void Add<T>(ref T sink, Component component, in Input input, PlanVector sensitivity)
        where T : IComponentSink =>
        sink.Add(component, input, sensitivity.V, sensitivity.U);

    private struct Sum : IComponentSink
    {
        public Propagation Total;

        public void Add(Component component, in Input input, double along, double across) => Total.Add(input.Standard, along, across);
    }
}
