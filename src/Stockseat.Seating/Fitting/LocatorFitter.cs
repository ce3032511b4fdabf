using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;

namespace Stockseat.Seating.Fitting;

/// <summary>Fits values of the locators, and the frame, to masters of several diameters.</summary>
public static class LocatorFitter
{
    /// <summary>Fits the values.</summary>
    /// <param name="touches">The touched masters.</param>
    /// <param name="parameters">What to fit, one or more.</param>
    /// <param name="nestOf">The nest with these values of the parameters, in their order; null where there is no such nest.</param>
    /// <param name="normal">The stated normal out of the plan in base.</param>
    /// <param name="holdNormal">Whether it is taken as stated.</param>
    /// <param name="touchingStandardMetres">The standard deviation of one touch along one axis, above 0; null: estimated from the residuals.</param>
    public static LocatorFitOutcome Fit(
        IReadOnlyList<MasterTouch> touches,
        IReadOnlyList<LocatorParameter> parameters,
        Func<IReadOnlyList<double>, Nest?> nestOf,
        Vector3 normal,
        bool holdNormal,
        double? touchingStandardMetres) => throw new NotImplementedException();
}
