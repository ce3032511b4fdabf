namespace Stockseat.EndToEnd.Support;

/// <summary>Where things lie in the repository.</summary>
internal static class Repository
{
    public static string Root { get; } = FindRoot();

    public static string Clients { get; } = Path.Combine(Root, "tests", "Stockseat.EndToEnd", "clients");

    /// <summary>The folder of the program that was built in the same configuration as these tests.</summary>
    public static string ProgramFolder { get; } = Path.Combine(Root, "src", "Stockseat", Built);

    public static string Program { get; } = Executable(ProgramFolder, "stockseat");

    /// <summary>The load program, built in the same configuration.</summary>
    public static string LoadProgram { get; } = Executable(Path.Combine(Root, "tests", "Stockseat.Load", Built), "Stockseat.Load");

    /// <summary>Where below its own folder a project is built: bin, configuration, framework.</summary>
    private static string Built => Path.GetRelativePath(Path.Combine(Root, "tests"), AppContext.BaseDirectory).Split(Path.DirectorySeparatorChar, 2)[1];

    private static string Executable(string folder, string name) => Path.Combine(folder, OperatingSystem.IsWindows() ? $"{name}.exe" : name);

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
