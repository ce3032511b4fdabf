namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Origin: Machinery's Handbook, Industrial Press. Edition: 31st, 2020, pages 701, 703 and 2130. Licence: copyright; single numbers only.
/// Read in a stored copy (online.flippingbook.com/view/954046886 and /954192180), not from memory; on page 2130 the thread of each row was inferred from its
/// columns. Inches. Tolerance: half a unit of the last place printed, except where a comment says more.
/// </summary>
public static class MachinerysHandbook31
{
    /// <summary>Page 2130, 12 of its rows: diameter, threads per inch, wire; over three wires for a sharp V thread and for a US standard thread.</summary>
    public static TheoryData<double, double, double, double, double> OverThreeWires => new()
    {
        { 0.25, 18, 0.035, 0.2588, 0.2708 },
        { 0.25, 20, 0.035, 0.2684, 0.2792 },
        { 0.375, 16, 0.040, 0.3867, 0.4003 },
        { 0.4375, 14, 0.050, 0.4638, 0.4793 },
        { 0.5, 12, 0.050, 0.5057, 0.5237 },
        { 0.625, 10, 0.070, 0.6618, 0.6835 },
        { 0.75, 11, 0.070, 0.8025, 0.8222 },
        { 0.875, 8, 0.090, 0.9285, 0.9556 },
        { 1.375, 6, 0.150, 1.5363, 1.5724 },
        { 2, 4.5, 0.150, 2.0651, 2.1132 },
        { 3, 3.5, 0.200, 3.1051, 3.1670 },
        { 4, 3, 0.250, 4.1726, 4.2448 },
    };

    /// <summary>
    /// The rows were read with a disagreement of at most 1e-4 in 55 rows; these 12 stay within half a unit and the rounding of the constant 1.5155 (at 3
    /// threads per inch 0.00002).
    /// </summary>
    public const double OverThreeWiresTolerance = 7e-5;

    /// <summary>Page 703, a groove measured over pins: pin radius, distance of the two apexes, half-angles in degrees, over the pins.</summary>
    public static (double Radius, double Apexes, double LeftDegrees, double RightDegrees, double OverPins) LopsidedGroove => (0.5, 1.824, 45, 35, 4.374);

    /// <summary>Page 701, discs in a taper: diameters, the taper's included angle in radians, centre distance, tolerance.</summary>
    public static TheoryData<double, double, double, double, double> Discs => new()
    {
        { 1, 1.5, 2 * Math.Atan(1.2015 / 24), 5, 3e-4 },      // 1.2015 in per foot at right angles to the centre line: ±0.00005 of it are ±0.0002
        { 1.25, 1.5, 2 * Math.Atan(0.75 / 24), 4.002, 5e-4 }, // 3/4 in per foot; also in Jones 1914
        { 1, 3, 20 * Math.PI / 180, 5.759, 5e-4 },            // 20°; also in Jones 1914
    };

    /// <summary>
    /// Page 701, a taper at right angles to one side: diameters 2 and 3, 2.4367 in per foot, centres 5 apart; ±0.00005 of the taper are ±0.0002.
    /// </summary>
    public static (double Small, double Large, double IncludedRadians, double Centres, double Tolerance) DiscsAgainstOneSide =>
        (2, 3, Math.Atan(2.4367 / 12), 5, 2e-4);
}
