using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// The edge cases that belong to seat-cases.json, rows E1 to E9. Origin: worked out with mpmath to 60 digits, like the rows of that file; nothing of
/// this project's code took part. Numbers of our own making, neither read nor from memory; licence as the project. Millimetres and degrees, axes as there.
/// <list type="table">
/// <item><term>E1</term><description>pins of radius 5 at u = ±20, stock of 29.9: no seat, it drops between the pins (29.9 + 5 + 5 is below
/// 40)</description></item>
/// <item><term>E2</term><description>the same pins, stock of 30: v = 0 and dv/dR without bound; to be refused</description></item>
/// <item><term>E3</term><description>the same pins, stock of 30.02: a seat, and a very steep one</description></item>
/// <item><term>E4</term><description>pins of radius 3 at (−10, 0) and (10, 25), stock of 40: both places that touch both pins let it roll off; no
/// seat</description></item>
/// <item><term>E5</term><description>pins of radius 5 at u = ±4, which overlap, stock of 40: invalid input</description></item>
/// <item><term>E6</term><description>faces with half-angles of 50 (left) and −10 (right), stock of 20: the row says "no seat"</description></item>
/// <item><term>E7</term><description>pin of radius 5 at u = −40, right face through u = 10 with half-angle 20, stock of 20: no seat, the gap is
/// 41.9846</description></item>
/// <item><term>E8</term><description>diameters of 0, −1, NaN and infinity: refused</description></item>
/// <item><term>E9</term><description>a 60° vee with faces 20 long, stock of 25.4: the contact is at R / tan 30° = 21.997045, beyond the face;
/// refused</description></item>
/// </list>
/// E5 is not used here: two circles that overlap do seat stock, and it is the reading of a fixture revision that refuses such pins. E6 is not followed: by the
/// set's own rule both loads are positive; see SeatPropertyTests.
/// </summary>
public static class EdgeCases
{
    /// <summary>The pins of E1 to E3 and E8.</summary>
    public static Nest TwentyApart => new(Pin(-20, 0, 5), Pin(20, 0, 5));

    public const double E1Diameter = 29.9;

    public const double E2Diameter = 30;

    public static readonly (double Diameter, double V, double PerRadius) E3 = (30.02, 0.6325345840347387, 31.63463390786084);

    public static (Nest Nest, double Diameter) E4 => (new(Pin(-10, 0, 3), Pin(10, 25, 3)), 40);

    public static readonly (double LeftDegrees, double RightDegrees, double Diameter) E6 = (50, -10, 20);

    /// <summary>A right face with half-angle 20° has its normal at 160°.</summary>
    public static (Nest Nest, double Diameter) E7 => (new(Pin(-40, 0, 5), Locator.Face(new(0.010, 0), Math.PI * 160 / 180)), 20);

    public static TheoryData<double> E8Diameters => new() { 0, -1, double.NaN, double.PositiveInfinity, double.NegativeInfinity };

    public const double E9Diameter = 25.4;

    /// <summary>How far up the face, in mm: the length of E9's faces, and its contact to 1e-3 on both sides.</summary>
    public static TheoryData<double, SeatFault> E9Faces => new()
    {
        { 20, SeatFault.ContactOffFace }, { 21.997, SeatFault.ContactOffFace }, { 21.998, SeatFault.None },
    };

    /// <summary>Half a diameter in millimetres, in metres.</summary>
    public static double Radius(double diameterMillimetres) => diameterMillimetres / 2000;

    private static Locator Pin(double u, double v, double radius) => Locator.Pin(new(u / 1000, v / 1000), radius / 1000);
}
