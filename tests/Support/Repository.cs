namespace Stockseat.Tests.Support;

/// <summary>Paths in the repository.</summary>
internal static class Repository
{
    public static string Root { get; } = FindRoot();

    public static string Config { get; } = Path.Combine(Root, "config");

    /// <summary>The demo's fixtures.</summary>
    public static string Fixtures { get; } = Path.Combine(Config, "fixtures");

    public static string Schema => File.ReadAllText(Path.Combine(Fixtures, "fixture.schema.json"));

    /// <summary>Every demo revision, as "fixture/r0001.json".</summary>
    public static string[] Demo =>
        [.. Directory.EnumerateFiles(Fixtures, "r*.json", SearchOption.AllDirectories)
            .Select(p => Path.GetRelativePath(Fixtures, p).Replace('\\', '/')).Order(StringComparer.Ordinal)];

    public static TheoryData<string> DemoRows => [.. Demo];

    /// <summary>The demo's bed of pins, its third revision.</summary>
    public static string Pins => Text("pinbed-1/r0003.json");

    public static string Clients { get; } = Path.Combine(Root, "tests", "Stockseat.EndToEnd", "clients");

    /// <summary>The folder of the program that was built in the same configuration as these tests.</summary>
    public static string ProgramFolder => Path.Combine(Root, "src", "Stockseat", Built);

    public static string Program => Executable(ProgramFolder, "stockseat");

    /// <summary>The load program, built in the same configuration.</summary>
    public static string LoadProgram => Executable(Path.Combine(Root, "tests", "Stockseat.Load", Built), "Stockseat.Load");

    /// <summary>Where a project's output is below its own folder: bin, configuration, framework.</summary>
    private static string Built => Path.GetRelativePath(Path.Combine(Root, "tests"), AppContext.BaseDirectory).Split(Path.DirectorySeparatorChar, 2)[1];

    /// <summary>A demo revision's text.</summary>
    public static string Text(string demo) => File.ReadAllText(Path.Combine(Fixtures, demo));

    /// <summary>A published file in a test project.</summary>
    public static string Published(string name) => File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Published", name));

    /// <summary>The text with one place in it changed; the old text has to appear exactly once.</summary>
    public static string Edit(string text, string old, string @new)
    {
        var at = text.IndexOf(old, StringComparison.Ordinal);
        Assert.True(at >= 0, $"not in the file: {old}");
        Assert.True(text.IndexOf(old, at + 1, StringComparison.Ordinal) < 0, $"more than once in the file: {old}");
        return text[..at] + @new + text[(at + old.Length)..];
    }

    private static string Executable(string folder, string name) => Path.Combine(folder, OperatingSystem.IsWindows() ? $"{name}.exe" : name);

    private static string FindRoot()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Stockseat.slnx")))
        {
            folder = Path.GetDirectoryName(folder)
                ?? throw new InvalidOperationException($"{AppContext.BaseDirectory} is not below the repository; run it where it was built");
        }

        return folder;
    }
}
