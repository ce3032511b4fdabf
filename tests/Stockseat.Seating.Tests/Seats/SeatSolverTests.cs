using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;
using Stockseat.Seating.Tests.Published;

namespace Stockseat.Seating.Tests.Seats;

/// <summary>Compared with Published/seat-cases.json, in millimetres; the table itself is good to far below 1e-9 mm.</summary>
public class SeatSolverTests
{
    private const double Millimetres = 1e-9;

    [Theory]
    [MemberData(nameof(SeatCases.Ids), MemberType = typeof(SeatCases))]
    public void Centre_IsThePublishedCentre(string id)
    {
        var expected = SeatCases.Of(id);
        var centre = SeatOf.Stock(expected.Nest, expected.RadiusMetres).Centre;
        Close.To(Plan(expected.Centre), 1000 * centre, Millimetres);
    }

    [Theory]
    [MemberData(nameof(SeatCases.Ids), MemberType = typeof(SeatCases))]
    public void PerRadius_IsThePublishedDerivative(string id)
    {
        var expected = SeatCases.Of(id);
        var seat = SeatOf.Stock(expected.Nest, expected.RadiusMetres);
        Close.To(Plan(expected.PerRadius), seat.PerRadius, 1e-9);
        Close.To(Plan(expected.PerRadius).Length, seat.Sensitivity, 1e-9);
    }

    [Theory]
    [MemberData(nameof(SeatCases.Ids), MemberType = typeof(SeatCases))]
    public void Normals_AreThePublishedNormals(string id)
    {
        var expected = SeatCases.Of(id);
        var seat = SeatOf.Stock(expected.Nest, expected.RadiusMetres);
        Close.To(Plan(expected.Normals[0]), seat.FirstNormal, 1e-12);
        Close.To(Plan(expected.Normals[1]), seat.SecondNormal, 1e-12);
    }

    [Theory]
    [MemberData(nameof(SeatCases.Ids), MemberType = typeof(SeatCases))]
    public void HeldAngle_IsTheSmallerAngleOfThePublishedNormalsToTheSeatAxis(string id)
    {
        var expected = SeatCases.Of(id);
        var held = Math.Min(Math.Acos(expected.Normals[0][1]), Math.Acos(expected.Normals[1][1]));
        Close.To(held, SeatOf.Stock(expected.Nest, expected.RadiusMetres).HeldRadians, 1e-12);
    }

    [Theory]
    [MemberData(nameof(SeatCases.Ids), MemberType = typeof(SeatCases))]
    public void ShiftFromTheNominal_IsThePublishedShift(string id)
    {
        var expected = SeatCases.Of(id);
        var shift = SeatOf.Stock(expected.Nest, expected.RadiusMetres).Centre
            - SeatOf.Stock(expected.Nest, expected.NominalRadiusMetres).Centre;
        Close.To(Plan(expected.Shift), 1000 * shift, Millimetres);
    }

    /// <summary>eᵢ = drᵢ + nᵢ·dPᵢ for a pin, nᵢ·dFᵢ − (t·(C−F))dφ for a face; every parameter of the table, one at a time.</summary>
    [Theory]
    [MemberData(nameof(SeatCases.Ids), MemberType = typeof(SeatCases))]
    public void Solve_GivesThePublishedJacobianOfTheLocators(string id)
    {
        var expected = SeatCases.Of(id);
        var nest = expected.Nest;
        var seat = SeatOf.Stock(nest, expected.RadiusMetres);
        foreach (var (parameter, derivative) in expected.Jacobian)
        {
            var first = Offset(parameter, nest.First, seat.FirstNormal, seat.Centre, isFirst: true);
            var second = Offset(parameter, nest.Second, seat.SecondNormal, seat.Centre, isFirst: false);
            Assert.False(first == 0 && second == 0 && (derivative[0] != 0 || derivative[1] != 0), parameter);
            Close.To(Plan(derivative), seat.Solve(first, second), 1e-9);
        }
    }

    [Theory]
    [MemberData(nameof(SeatCases.ExactIds), MemberType = typeof(SeatCases))]
    public void ExactCases_AreMet(string id)
    {
        var expected = SeatCases.Exact(id);
        var seat = SeatOf.Stock(SeatCases.Nest(expected.Type, expected.Locators), SeatCases.Number(expected.Radius) / 1000);
        Close.To(Plan(expected.Centre), 1000 * seat.Centre, Millimetres);
        if (expected.PerRadiusV is { } perRadius)
        {
            Close.To(SeatCases.Number(perRadius), seat.PerRadius.V, 1e-9);
        }
    }

    [Theory]
    [MemberData(nameof(SeatCases.RotatedIds), MemberType = typeof(SeatCases))]
    public void RotatedNests_ShiftTheOriginInBase(string id)
    {
        var expected = SeatCases.Rotated(id);
        var nest = SeatCases.Of(id).Nest;
        var shift = SeatOf.Stock(nest, expected.Diameter / 2000).Centre - SeatOf.Stock(nest, expected.Nominal / 2000).Centre;
        var angle = expected.XToUDegrees * Math.PI / 180;
        Assert.True(PlanFrame.TryCreate(new(-Math.Sin(angle), Math.Cos(angle), 0), new(0, 0, 1), out var frame));

        // Taught with the nest's own axes, so the shift in the origin's axes equals the shift in the plan.
        var origin = new Pose(new(0.4, -0.2, 0.1), Rotation.FromAxisAngle(new(0, 0, 1), angle));
        var correction = Correction.Of(origin, frame, default, shift);

        var shiftBase = new Vector3(expected.ShiftBase[0], expected.ShiftBase[1], 0);
        Close.To(shiftBase, 1000 * correction.ShiftBase, Millimetres);
        Close.To(origin.PositionMetres + 1e-3 * shiftBase, correction.Pose.PositionMetres, 1e-12);
        Close.To(new Vector3(shift.U, shift.V, 0), correction.ShiftOrigin, 1e-12);
    }

    private static PlanVector Plan(string[] uv) => new(SeatCases.Number(uv[0]), SeatCases.Number(uv[1]));

    private static PlanVector Plan(double[] uv) => new(uv[0], uv[1]);

    /// <summary>What one unit of a parameter (mm, or a degree) adds to the offset of a locator's contact, in mm.</summary>
    private static double Offset(string parameter, Locator locator, PlanVector normal, PlanVector centre, bool isFirst)
    {
        var (name, what) = (parameter[..parameter.IndexOf('_', StringComparison.Ordinal)], parameter[(parameter.IndexOf('_', StringComparison.Ordinal) + 1)..]);
        var mine = name switch
        {
            "apex" => true,
            "pin1" or "pin" or "left" => isFirst,
            _ => !isFirst,
        };
        if (!mine)
        {
            return 0;
        }

        // The half-angle opens a left face's normal from +u towards +v, and a right face's normal the other way.
        var turn = locator.Normal.U > 0 ? 1 : -1;
        return what switch
        {
            "u" => normal.U,
            "v" => normal.V,
            "r" => 1,
            "half_angle_deg" => -PlanVector.Dot(normal.Turned, 1000 * (centre - locator.Point)) * turn * Math.PI / 180,
            _ => throw new InvalidDataException(parameter),
        };
    }
}
