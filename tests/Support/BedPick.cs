namespace Stockseat.Tests.Support;

/// <summary>
/// Stock of 92.40 mm picked from nest 0,0 of the demo's tilted bed (pinbed-1, revision 3), by hand: √(52.5² − 30²) − √(46² − 30²) = 8.213028 mm along the
/// seat axis (−0.576, 0.768, 0.28), from the taught (412.3, −205, 118) mm. Metres, with the six decimals that a controller gets.
/// </summary>
internal static class BedPick
{
    public const string X = "0.407569";
    public const string Y = "-0.198692";
    public const string Z = "0.120300";

    public const string Bx = "-0.004731";
    public const string By = "0.006308";
    public const string Bz = "0.002300";

    /// <summary>The whole shift in base, as a controller reads it back in a line.</summary>
    public const string ReadBack = $"bx={Bx} by={By} bz={Bz}";

    /// <summary>The tool's y runs down the slope, so that the whole shift is along it.</summary>
    public const string Oy = "-0.008213";

    /// <summary>The shift in base in whole micrometres, as the short form sends it.</summary>
    public const string Micrometres = "-4731 6308 2300";
}
