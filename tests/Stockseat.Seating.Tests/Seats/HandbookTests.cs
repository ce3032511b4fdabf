using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Tests.Published;

namespace Stockseat.Seating.Tests.Seats;

/// <summary>
/// Workshop arithmetic that is really a seat: a wire in a thread's groove, a pin in a groove, a disc between discs.
/// Any unit of length will do: a seat scales with its nest.
/// </summary>
public class HandbookTests
{
    private const double Degrees = Math.PI / 180;

    [Theory]
    [MemberData(nameof(ThreeWireConstants.Rows), MemberType = typeof(ThreeWireConstants))]
    public void AWireInAThread_GivesThePrintedConstants(
        double included, double bestWire, double bestTolerance, double wire, double wireTolerance, double pitch, double pitchTolerance)
    {
        var seat = SeatOf.Stock(Nest.Vee(included * Degrees), 0.5);
        var contact = seat.Centre - 0.5 * seat.SecondNormal;

        // Over three wires: twice the change of the centre's height for half a diameter, and twice half a diameter.
        Close.To(wire, seat.PerRadius.V + 1, wireTolerance);

        // The best wire touches a quarter of the pitch from the groove's middle; the apex lies P/4·cot inside the pitch line.
        Close.To(bestWire, 0.25 / Math.Abs(contact.U), bestTolerance);
        Close.To(pitch, contact.V / Math.Abs(contact.U) / 2, pitchTolerance);
    }

    [Theory]
    [MemberData(nameof(MachinerysHandbook31.OverThreeWires), MemberType = typeof(MachinerysHandbook31))]
    public void OverThreeWires_AgreesWithTheHandbooksRow(double diameter, double threadsPerInch, double wire, double sharp, double usStandard)
    {
        // Depths of thread by the definitions of the two forms: sharp V P·cos 30°, US standard three quarters of it.
        var pitch = 1 / threadsPerInch;
        var depth = pitch * Math.Cos(30 * Degrees);
        Close.To(sharp, OverWires(60, diameter - depth, pitch, wire), MachinerysHandbook31.OverThreeWiresTolerance);
        Close.To(usStandard, OverWires(60, diameter - 0.75 * depth, pitch, wire), MachinerysHandbook31.OverThreeWiresTolerance);
    }

    [Fact]
    public void OverThreeWires_AgreesWithTheExampleOf1914()
    {
        var (diameter, threadsPerInch, wire, overWires) = TurningAndBoring1914.Example;
        var pitch = 1 / threadsPerInch;
        Close.To(overWires, OverWires(60, diameter - 0.75 * pitch * Math.Cos(30 * Degrees), pitch, wire), 5e-5);
    }

    [Theory]
    [MemberData(nameof(ThreeWireExamples.Metric), MemberType = typeof(ThreeWireExamples))]
    public void OverThreeWires_AgreesWithTheMetricExample(double diameter, double pitch, double wire, double overWires) =>
        Close.To(overWires, OverWires(60, diameter - 0.75 * pitch * Math.Cos(30 * Degrees), pitch, wire), 2e-6);

    [Theory]
    [MemberData(nameof(ThreeWireExamples.BestWire), MemberType = typeof(ThreeWireExamples))]
    public void TheBestWire_TouchesAtTheGroovesPitchLine(double included, double threadsPerInch, double wire, double tolerance)
    {
        var seat = SeatOf.Stock(Nest.Vee(included * Degrees), wire / 2);
        var contact = seat.Centre - wire / 2 * seat.SecondNormal;
        Close.To(1 / threadsPerInch / 4, Math.Abs(contact.U), tolerance / 2);
    }

    [Fact]
    public void ALopsidedGroove_MeasuresOverPinsAsInTheHandbook()
    {
        var (radius, apexes, left, right, overPins) = MachinerysHandbook31.LopsidedGroove;
        var groove = new Nest(
            Locator.Face(default, SeatCases.Left(left)), Locator.Face(default, SeatCases.Right(right)));
        var seat = SeatOf.Stock(groove, radius);
        Close.To(overPins, apexes + 2 * (seat.Centre.V + radius), 5e-4);
    }

    [Theory]
    [MemberData(nameof(MachinerysHandbook31.Discs), MemberType = typeof(MachinerysHandbook31))]
    public void TwoDiscsInATaper_LieAsFarApartAsInTheHandbook(double small, double large, double included, double centres, double tolerance)
    {
        var taper = Nest.Vee(included);
        Close.To(centres, (SeatOf.Stock(taper, large / 2).Centre - SeatOf.Stock(taper, small / 2).Centre).V, tolerance);
    }

    [Fact]
    public void TwoDiscsAgainstAnUprightSide_LieAsFarApartAsInTheHandbook()
    {
        var (small, large, included, centres, tolerance) = MachinerysHandbook31.DiscsAgainstOneSide;
        var taper = new Nest(Locator.Face(default, SeatCases.Left(0)), Locator.Face(default, SeatCases.Right(included / Degrees)));
        var apart = SeatOf.Stock(taper, large / 2).Centre - SeatOf.Stock(taper, small / 2).Centre;
        Close.To(centres, apart.Length, tolerance);
        Close.To((large - small) / 2, apart.U, 1e-12);
    }

    [Fact]
    public void ThreeDiscsInContact_LieAtThePrintedDistances()
    {
        var (a, b, c) = PrecisionLocating.Diameters;
        var (ab, bc, ac) = PrecisionLocating.Distances;
        var nest = new Nest(Locator.Pin(default, a / 2), Locator.Pin(new(ab, 0), b / 2));
        var centre = SeatOf.Stock(nest, c / 2).Centre;
        Close.To(ac, centre.Length, 1e-12);
        Close.To(bc, (centre - nest.Second.Point).Length, 1e-12);

        // The right height is calculated from the three sides alone, by Heron's formula.
        var s = (ab + bc + ac) / 2;
        Close.To(2 * Math.Sqrt(s * (s - ab) * (s - bc) * (s - ac)) / ab, centre.V, 1e-12);
    }

    [Fact]
    public void APinInADovetail_StandsOffByTheCotangent()
    {
        var (flat, pin, degrees, overPins) = Dovetails.Example;
        var seat = SeatOf.Stock(Nest.Vee(degrees * Degrees), pin / 2);
        var alongTheFlat = (seat.Centre - pin / 2 * seat.SecondNormal).Length;
        Close.To(overPins, flat + 2 * (alongTheFlat + pin / 2), 5e-5);
        Close.To(Dovetails.PerPin, 2 * (alongTheFlat + pin / 2) / pin, 5e-8);
    }

    [Theory]
    [MemberData(nameof(TouchingCircles.Quadruples), MemberType = typeof(TouchingCircles))]
    public void FourCirclesOfIntegerCurvatures_TouchEachOther(int pin1, int pin2, int stock, int smaller)
    {
        var nest = Touching(1.0 / pin1, 1.0 / pin2);
        var apart = SeatOf.Stock(nest, 1.0 / stock).Centre - SeatOf.Stock(nest, 1.0 / smaller).Centre;
        Close.To(1.0 / stock + 1.0 / smaller, apart.Length, 1e-12);
    }

    [Theory]
    [MemberData(nameof(TouchingCircles.Seats), MemberType = typeof(TouchingCircles))]
    public void StockOnTouchingPins_SeatsAtAFraction(string pin1, string pin2, string stock, string u, string v)
    {
        var nest = Touching(SeatCases.Number(pin1), SeatCases.Number(pin2));
        var centre = SeatOf.Stock(nest, SeatCases.Number(stock)).Centre;
        Close.To(new PlanVector(SeatCases.Number(u), SeatCases.Number(v)), centre, 1e-14);
    }

    [Theory]
    [MemberData(nameof(PythagoreanGaps.Rows), MemberType = typeof(PythagoreanGaps))]
    public void EqualPinsWithAGap_SeatOnAPythagoreanTriangle(double pin, double spacing, double radius, double v, string perRadius)
    {
        var seat = SeatOf.Stock(Nest.Pins(spacing, 2 * pin), radius);
        Close.To(new PlanVector(0, v), seat.Centre, 1e-12);
        Close.To(new PlanVector(0, SeatCases.Number(perRadius)), seat.PerRadius, 1e-12);
        Close.To(Math.Asin(spacing / 2 / (radius + pin)), seat.HeldRadians, 1e-12);
    }

    [Theory]
    [MemberData(nameof(FordCircles.Neighbours), MemberType = typeof(FordCircles))]
    public void NeighbouringFordCircles_SeatBetweenPinAndFace(int a, int b, int c, int d)
    {
        // The line is the face. It leans so that the stock runs against the pin: by 10° and 25°, towards the pin's side.
        var towards = a * d < c * b ? 1 : -1;
        foreach (var lean in new[] { 10 * Degrees * towards, 25 * Degrees * towards })
        {
            var nest = new Nest(Locator.Pin(Turned(Ford(a, b), lean), Ford(a, b).V), Locator.Face(default, Math.PI / 2 + lean));
            var seat = SeatOf.Stock(nest, Ford(c, d).V);
            Close.To(Turned(Ford(c, d), lean), seat.Centre, 1e-12);
        }

        static PlanVector Ford(int p, int q) => new((double)p / q, 0.5 / q / q);
    }

    /// <summary>Common practice, no source: pins of 0.350 in at 2.000 in, stock of 3.950 in sits 1.903 in from the pins' line.</summary>
    [Fact]
    public void StockOnAPinBed_SeatsWhereTheSetterExpectsIt()
    {
        var seat = SeatOf.Stock(Nest.Pins(2.000 * 0.0254, 0.350 * 0.0254), 3.950 / 2 * 0.0254);
        Close.To(1.903, seat.Centre.V / 0.0254, 0.0005);
        Close.To(0, seat.Centre.U, 1e-15);
    }

    /// <summary>E is the pitch diameter; the groove's virtual apex lies P/4·cot inside the pitch line, on either side of the screw.</summary>
    private static double OverWires(double included, double pitchDiameter, double pitch, double wire)
    {
        var seat = SeatOf.Stock(Nest.Vee(included * Degrees), wire / 2);
        var apexes = pitchDiameter - 2 * (pitch / 4 / Math.Tan(included / 2 * Degrees));
        return apexes + 2 * seat.Centre.V + wire;
    }

    private static Nest Touching(double pin1, double pin2) =>
        new(Locator.Pin(default, pin1), Locator.Pin(new(pin1 + pin2, 0), pin2));

    private static PlanVector Turned(PlanVector p, double radians)
    {
        var (sin, cos) = Math.SinCos(radians);
        return new(cos * p.U - sin * p.V, sin * p.U + cos * p.V);
    }
}
