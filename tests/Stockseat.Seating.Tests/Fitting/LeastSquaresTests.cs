using Stockseat.Seating.Fitting;
using Stockseat.Seating.Tests.Published;

namespace Stockseat.Seating.Tests.Fitting;

public class LeastSquaresTests
{
    [Fact]
    public void TheCertifiedLine_ComesOutToElevenDigits()
    {
        Assert.True(LeastSquares.TrySolve(Line(Norris.X), Norris.Y, out var line));
        Close.To(Norris.Values.Intercept, line!.Values[0], 3e-12);
        Close.To(Norris.Values.Slope, line.Values[1], 1e-14);
        var deviation = Math.Sqrt(line.SumOfSquares / (Norris.X.Length - 2));
        Close.To(Norris.ResidualDeviation, deviation, 1e-13);
        Close.To(Norris.Deviations.Intercept, deviation * Math.Sqrt(line.CovariancePerUnit[0, 0]), 1e-13);
        Close.To(Norris.Deviations.Slope, deviation * Math.Sqrt(line.CovariancePerUnit[1, 1]), 1e-16);
    }

    [Fact]
    public void ColumnsOfAnyUnit_GiveTheSameLine()
    {
        LeastSquares.TrySolve(Line(Norris.X), Norris.Y, out var line);
        Assert.True(LeastSquares.TrySolve(Line([.. Norris.X.Select(x => 1e20 * x)]), Norris.Y, out var scaled));
        Close.To(line!.Values[1], 1e20 * scaled!.Values[1], 1e-13);
    }

    [Fact]
    public void DependentColumns_AreRefused() => Assert.False(LeastSquares.TrySolve(Line([3, 3, 3, 3]), [1, 2, 3, 4], out _));

    [Fact]
    public void FewerRowsThanColumns_Throw() => Assert.Throws<ArgumentException>(() => LeastSquares.TrySolve(Line([1]), [1], out _));

    private static double[,] Line(double[] x)
    {
        var design = new double[x.Length, 2];
        for (var i = 0; i < x.Length; i++)
        {
            (design[i, 0], design[i, 1]) = (1, x[i]);
        }

        return design;
    }
}
