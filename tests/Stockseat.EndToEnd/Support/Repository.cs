namespace Stockseat.EndToEnd.Support;

/// <summary>Where things lie in the repository.</summary>
internal static class Repository
{
    private const string Project = "tests/Stockseat.EndToEnd";

    public static string Root { get; } = FindRoot();

    public static string Clients { get; } = Path.Combine(Root, Project, "clients");

    /// <summary>The folder of the program that was built in the same configuration as these tests.</summary>
    public static string ProgramFolder { get; } = Path.Combine(
        Root, "src", "Stockseat", Path.GetRelativePath(Path.Combine(Root, Project), AppContext.BaseDirectory));

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
