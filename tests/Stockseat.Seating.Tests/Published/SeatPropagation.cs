namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Origin: computed in Python with mpmath and SciPy, from partial derivatives that were worked out by hand and by a Monte Carlo of 400,000 draws (seed 5).
/// Nothing of this project's code took part; neither read nor from memory. Two equal pins, in mm, in this order: D and the standard uncertainty of D, the
/// radius of both pins and its standard uncertainty, the spacing and its standard uncertainty (both pins move apart together; u is counted from the middle);
/// then the uncertainty along and across by the derivatives, and the same by the draws.
/// </summary>
public static class SeatPropagation
{
    public static TheoryData<double, double, double, double, double, double, double, double, double, double> Examples => new()
    {
        { 25.0, 0.01, 5.0, 0.002, 20.0, 0.005, 0.006566674357786605, 0.0024748737341529167, 0.006564211987998162, 0.002474769396779955 },
        { 40.0, 0.02, 6.0, 0.003, 45.0, 0.01, 0.022152005331486032, 0.0024513035081133645, 0.02212672070776443, 0.002451032329565149 },
        { 12.7, 0.01, 4.0, 0.002, 19.5, 0.01, 0.020901867373550452, 0.0015012420892883626, 0.020909565058882935, 0.0014999847864854126 },
        { 12.7, 0.01, 4.0, 0.002, 20.6, 0.01, 0.07328049861318993, 0.001421078676753547, 0.07409624345041009, 0.0014201907510606048 },
    };
}
