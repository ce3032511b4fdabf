namespace Stockseat.EndToEnd.Support;

/// <summary>Where things lie in the repository.</summary>
internal static class Repository
{
    public static string Root { get; } = FindRoot();

    public static string Clients { get; } = Path.Combine(Root, "tests", "Stockseat.EndToEnd", "clients");

    /// <summary>The folder of the program that was built in the same configuration as these tests.</summary>
    public static string ProgramFolder { get; } = Path.Combine(
        Root, "src", "Stockseat", Path.GetRelativePath(Path.Combine(Root, "tests"), AppContext.BaseDirectory).Split(Path.DirectorySeparatorChar, 2)[1]);

    public static string Program { get; } = Path.Combine(ProgramFolder, OperatingSystem.IsWindows() ? "stockseat.exe" : "stockseat");

    /// <summary>The load program, built in the same configuration.</summary>
    public static string LoadProgram { get; } = Path.Combine(
        Root, "tests", "Stockseat.Load", Path.GetRelativePath(Path.Combine(Root, Project), AppContext.BaseDirectory),
        OperatingSystem.IsWindows() ? "Stockseat.Load.exe" : "Stockseat.Load");

    private static string FindRoot()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Stockseat.slnx")))
        {
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("the tests run below the repository");
        }

        return folder;
    }
}
