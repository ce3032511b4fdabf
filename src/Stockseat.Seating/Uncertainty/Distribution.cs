namespace Stockseat.Seating.Uncertainty;

/// <summary>How the values of an input are taken to spread around its estimate.</summary>
public enum Distribution
{
    /// <summary>The stated value is a standard uncertainty already.</summary>
    Normal = 1,

    /// <summary>Equally likely everywhere within ±a: standard uncertainty a/√3 (JCGM 100:2008, 4.3.7; clause from memory).</summary>
    Rectangular = 2,

    /// <summary>A sine of amplitude a at an unknown phase: standard uncertainty a/√2 (JCGM 101:2008, 6.4.6; clause from memory).</summary>
    Arcsine = 3,
}
