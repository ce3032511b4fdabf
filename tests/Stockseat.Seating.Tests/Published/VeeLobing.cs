namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Origin of the factors: ISO 4292:1985, summit method. Its title was read; its values are from memory and agree with the formula
/// |(-1)^n + cos(nβ)/sin α|, which was derived here. That a two-point diameter can't see odd lobes was read in "5 things to know about triangle effect,
/// pseudo-roundness and lobing", Precision Machined Products Association, 2010 (pmpa.org). The movements: derived, then checked in Python on contours
/// sampled point by point; nothing of this project's code took part. Neither read nor from memory.
/// </summary>
public static class VeeLobing
{
    /// <summary>Included angle in degrees, lobes, indicator's swing per peak-to-valley of the radius, to two digits.</summary>
    public static TheoryData<int, int, double> Factors => new()
    {
        { 60, 2, 0 },
        { 60, 3, 3 },
        { 60, 4, 0 },
        { 60, 5, 0 },
        { 60, 6, 3 },
        { 60, 7, 0 },
        { 60, 8, 0 },
        { 60, 9, 3 },
        { 60, 10, 0 },
        { 72, 2, 0.47 },
        { 72, 3, 2.62 },
        { 72, 4, 0.38 },
        { 72, 5, 1 },
        { 72, 6, 2.38 },
        { 72, 7, 0.62 },
        { 90, 2, 1 },
        { 90, 3, 2 },
        { 90, 4, 0.41 },
        { 90, 5, 2 },
        { 90, 6, 1 },
        { 90, 7, 0 },
        { 90, 8, 2.41 },
        { 90, 9, 0 },
        { 90, 10, 1 },
        { 108, 2, 1.38 },
        { 108, 3, 1.38 },
        { 108, 4, 0 },
        { 108, 5, 2.24 },
        { 108, 6, 0 },
        { 108, 7, 1.38 },
        { 108, 8, 1.38 },
        { 120, 2, 1.58 },
        { 120, 3, 1 },
        { 120, 4, 0.42 },
        { 120, 5, 2 },
        { 120, 6, 0.16 },
        { 120, 7, 2 },
        { 120, 8, 0.42 },
        { 120, 9, 1 },
    };

    /// <summary>
    /// Included angle in degrees, or a pin's radius and half spacing in mm; R, amplitude, lobes, direction of a crest from -v in degrees; du, dv of first
    /// order; du, dv of the contour itself.
    /// </summary>
    public static TheoryData<int, double, double, double, double, int, double, double, double, double, double> Movements => new()
    {
        { 60, 0, 0, 20, 0.02, 3, 0, 0.0, -0.04, 0.0, -0.04 },
        { 60, 0, 0, 20, 0.02, 3, 30, 0.0, 0.0, 0.0, 0.0 },
        { 90, 0, 0, 20, 0.02, 3, 15, -0.014142135623731, -0.014142135623731, -0.014142135623731, -0.014142135623731 },
        { 90, 0, 0, 20, 0.01, 5, 0, 0.0, -0.01, 0.0, -0.01 },
        { 120, 0, 0, 20, 0.03, 2, 20, -0.0334002239535852, 0.0132682789633788, -0.0334002239535852, 0.0132682789633788 },
        { 108, 0, 0, 20, 0.005, 7, 10, 0.00760227299704533, -0.000653200349566475, 0.00760227299704533, -0.000653200349566475 },
        { 0, 5, 15, 20, 0.02, 3, 0, 0.0, -0.0088, 0.0, -0.00889433203813623 },
        { 0, 5, 15, 20, 0.02, 3, 30, -0.0312, 0.0, -0.0311994781545671, -5.30853926770717e-05 },
        { 0, 4, 12, 20, 0.01, 5, 12, -0.00866025403784439, -0.005, -0.00860380675546732, -0.00505394597533216 },
        { 0, 6, 14, 20, 0.03, 2, 20, -0.0324987021701671, 0.0114577566653423, -0.0324702303729352, 0.0114259891397142 },
    };
}
