using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Fitting;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Quantities;
using Stockseat.Seating.Uncertainty;

namespace Stockseat.Fixtures.Calibration;

/// <summary>
/// Fits the sizes of the locators to masters of several diameters. Only sizes that the file states for all nests are fitted: those of pins or of a vee.
/// </summary>
internal static class MasterFit
{
    /// <summary>A value that may be fitted.</summary>
    /// <param name="Path">Its path in the file.</param>
    /// <param name="Drawing">Its value in the file, in metres or radians.</param>
    /// <param name="Key">The key under uncertainty that states how far it may be from that value.</param>
    /// <param name="Tolerance">The value of that key.</param>
    /// <param name="Locators">How many locators contribute an error to it: for a spacing or an included angle it is two, one at each side.</param>
    /// <param name="Text">Writes it as text.</param>
    private sealed record Value(string Path, double Drawing, string Key, Input? Tolerance, int Locators, Func<double, string> Text);

    /// <summary>Fits the sizes.</summary>
    /// <param name="source">The file's text.</param>
    /// <param name="drawing">The revision in it.</param>
    /// <param name="nests">The touched nests, each usable by itself.</param>
    /// <param name="normal">The stated normal.</param>
    /// <param name="touchingMetres">The standard deviation of one touch along one axis, in metres; null: estimated.</param>
    /// <param name="changes">The fitted values are added here, by their path in the file.</param>
    /// <param name="fault">Why nothing could be fitted.</param>
    public static (LocatorFit Fit, Nest Nest)? Fit(
        ReadOnlySpan<byte> source, Revision drawing, IReadOnlyList<TouchedNest> nests, Vector3 normal, double? touchingMetres,
        Dictionary<string, string> changes, out string? fault)
    {
        var pins = JsonSplice.Has(source, "nest.pins");
        if (!pins && !JsonSplice.Has(source, "nest.vee"))
        {
            fault = "the nest is stated by single locators, but sizes can be fitted only for nest.pins and nest.vee; calibrate without the fit of locators";
            return null;
        }

        var values = pins ? Pins(drawing) : Vee(drawing);
        if (values.FirstOrDefault(v => v.Tolerance is not { Standard: > 0 }) is { } unknown)
        {
            fault = $"how far {unknown.Path} may be from the drawing is not stated: state the tolerance of the drawing as uncertainty.{unknown.Key} in "
                + $"revision {drawing.Number}";
            return null;
        }

        var first = drawing.Nest.First;
        Nest? Made(IReadOnlyList<double> v) => pins
            ? v[0] > v[1] && v[1] > 0 ? Nest.Pins(v[0], v[1]) : null
            : v[0] > 0 && v[0] < Math.PI ? Nest.Vee(v[0], first.FromMetres, first.ToMetres) : null;
        var outcome = LocatorFitter.Fit(
            [.. nests.Select(n => new MasterTouch(TouchedFrames.Cell(drawing.Layout, n), n.DiameterMetres, n.PositionMetres))],
            [.. values.Select(v => new LocatorParameter(v.Path, v.Drawing, v.Tolerance!.Value.Standard * Math.Sqrt(v.Locators)))],
            Made, normal, TouchedFrames.HoldsNormal(drawing.Layout, nests), touchingMetres);
        fault = Said(outcome, nests);
        if (outcome.Fit is not { } fit)
        {
            return null;
        }

        for (var i = 0; i < values.Length; i++)
        {
            changes[values[i].Path] = values[i].Text(fit.Parameters[i].Value);
        }

        return (fit, Made([.. fit.Parameters.Select(p => p.Value)])!.Value);
    }

    private static Value[] Pins(Revision drawing)
    {
        var (a, b) = (drawing.Nest.First, drawing.Nest.Second);
        return
        [
            new("nest.pins.spacing", (b.Point - a.Point).Length, "locatorPosition", drawing.Uncertainty?.LocatorPosition, 2, RevisionText.Length),
            new("nest.pins.diameter", 2 * a.RadiusMetres, "locatorDiameter", drawing.Uncertainty?.LocatorDiameter, 1, RevisionText.Length),
        ];
    }

    private static Value[] Vee(Revision drawing)
    {
        var (a, b) = (drawing.Nest.First.Normal, drawing.Nest.Second.Normal);
        var included = Math.PI - Math.Acos(Math.Clamp(PlanVector.Dot(a, b), -1, 1));
        return [new("nest.vee.includedAngle", included, "locatorAngle", drawing.Uncertainty?.LocatorAngle, 2, RevisionText.Angle)];
    }

    private static string? Said(LocatorFitOutcome outcome, IReadOnlyList<TouchedNest> nests) => outcome.Fault switch
    {
        LocatorFitFault.None => null,
        LocatorFitFault.Frame => TouchedFrames.Said(outcome.FrameFault),
        LocatorFitFault.Indistinct => $"masters of {string.Join(", ", nests.Select(n => Length(n.DiameterMetres)).Distinct())} can't tell "
            + $"{string.Join(" and ", outcome.Indistinct)} {(outcome.Indistinct.Count == 1 ? "from the position of the frame" : "apart")}; touch more masters, "
            + $"whose diameters differ more{(outcome.Indistinct.Count > 1 ? ", one of them so small that it nearly drops between the pins" : "")}, or "
            + "calibrate without the fit of locators",
        LocatorFitFault.NotConverged =>
            "the fit of the locators does not converge; look for a wrong diameter or nest in the table, or calibrate without the fit of locators",
        LocatorFitFault.NoSeat =>
            $"a master of {Length(nests[outcome.Touch!.Value].DiameterMetres)} has no seat in this nest; correct its diameter or the drawing",
        _ => throw new ArgumentOutOfRangeException(nameof(outcome), outcome.Fault, "no such fault"),
    };

    /// <summary>As revisions' files state lengths: a fault is found when the file is read, whoever will be shown it.</summary>
    private static string Length(double metres) => LengthUnit.Millimetre.Text(metres);
}
