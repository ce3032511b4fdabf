namespace Stockseat.Seating.Uncertainty;

/// <summary>How the values of an input are taken to spread around its estimate.</summary>
public enum Distribution
{
    /// <summary>What is stated is a standard uncertainty already.</summary>
    Normal = 1,

    /// <summary>Anywhere within the limits alike: ±a, standard uncertainty a/√3 (JCGM 100, 4.3.7).</summary>
    Rectangular = 2,

    /// <summary>A sine of amplitude a at an unknown phase: standard uncertainty a/√2 (JCGM 101, 6.4.6).</summary>
    Arcsine = 3,
}
