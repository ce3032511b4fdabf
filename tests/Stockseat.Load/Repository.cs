namespace Stockseat.Load;

/// <summary>Where things lie in the repository.</summary>
internal static class Repository
{
    public static string Root { get; } = FindRoot();

    /// <summary>The demo's fixtures.</summary>
    public static string Fixtures { get; } = Path.Combine(Root, "config", "fixtures");

    /// <summary>The service as it was built beside this program.</summary>
    public static string Program { get; } = Path.Combine(
        Root, "src", "Stockseat", Path.GetRelativePath(Path.Combine(Root, "tests", "Stockseat.Load"), AppContext.BaseDirectory),
        OperatingSystem.IsWindows() ? "stockseat.exe" : "stockseat");

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
