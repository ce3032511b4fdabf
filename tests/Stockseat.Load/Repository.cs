namespace Stockseat.Load;

/// <summary>Paths in the repository.</summary>
internal static class Repository
{
    public static string Root { get; } = FindRoot();

    /// <summary>The demo's fixtures.</summary>
    public static string Fixtures { get; } = Path.Combine(Root, "config", "fixtures");

    /// <summary>The native service, where tests/run and tests/measure publish it.</summary>
    public static string Service { get; } = Path.Combine(Root, "tests", ".native", "stockseat");

    /// <summary>The native program for comparison, where tests/measure publishes it.</summary>
    public static string Baseline { get; } = Path.Combine(Root, "tests", ".baseline", "baseline");

    private static string FindRoot()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Stockseat.slnx")))
        {
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("this program runs below the repository");
        }

        return folder;
    }
}
