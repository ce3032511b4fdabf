namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Origin: F. D. Jones, Turning and Boring, Industrial Press. Edition: 1914. Licence: US public domain. Read (bitlit.ru), not from memory.
/// Worked example in inches: US standard thread 1 1/2 - 6, wire 0.140.
/// </summary>
public static class TurningAndBoring1914
{
    public static (double Diameter, double ThreadsPerInch, double Wire, double OverWires) Example => (1.5, 6, 0.140, 1.6674);
}
