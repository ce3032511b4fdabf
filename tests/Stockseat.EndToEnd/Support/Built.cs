using System.Diagnostics;

namespace Stockseat.EndToEnd.Support;

/// <summary>The two ways the program is built: an assembly with others beside it, on the run-time; or native code alone, which is what ships.</summary>
public enum Build
{
    Ordinary,
    Native,
}

/// <summary>The program, built in one of the two ways.</summary>
internal sealed class Built
{
    private const string Variable = "STOCKSEAT_NATIVE";

    private Built(string path) => Path = path;

    /// <summary>Built in the same configuration as these tests.</summary>
    public static Built Ordinary { get; } = new(Repository.Program);

    /// <summary>Published by tests/run, which sets the path; without the path, a test that needs it is skipped.</summary>
    public static Built Native
    {
        get
        {
            var path = Environment.GetEnvironmentVariable(Variable);
            Assert.SkipWhen(string.IsNullOrEmpty(path), $"{Variable} names no native program: tests/run publishes one where there is a C toolchain");
            Assert.True(File.Exists(path), $"{Variable} names {path}, which does not exist");
            return new(path!);
        }
    }

    public string Path { get; }

    public string Folder => System.IO.Path.GetDirectoryName(Path)!;

    public static Built As(Build build) => build == Build.Native ? Native : Ordinary;

    /// <summary>Runs the program to its end.</summary>
    public Task<Run> Run(params string[] arguments) => Tool.Run(Path, arguments);

    /// <summary>Runs the program to its end, with a variable set in its environment.</summary>
    public Task<Run> RunWith((string Name, string Value)[] environment, params string[] arguments) => Tool.Run(Path, arguments, null, environment);

    public Process Start(IEnumerable<string> arguments, params (string Name, string Value)[] environment) => Tool.Start(Path, arguments, null, environment);

    /// <summary>Starts the service on free ports and waits until it says that it is ready.</summary>
    public Task<Service> Serve(Cell cell) => Service.Start(this, cell);
}
