using Stockseat.Tests.Support;

namespace Stockseat.EndToEnd.Support;

/// <summary>Runs the clients written in Python; a test that needs them is skipped, with the reason, when Python lacks something.</summary>
internal static class Python
{
    // The Python that sees Debian's packages; a version manager's python3 may come first in the path.
    private static readonly string Program = File.Exists("/usr/bin/python3") ? "/usr/bin/python3" : "python3";

    public static Task<Run> Run(string client, params string[] arguments) => RunFor(Deadline.Usual, client, arguments);

    /// <summary>The same with another time limit.</summary>
    public static async Task<Run> RunFor(TimeSpan limit, string client, params string[] arguments)
    {
        var run = await Try(Program, "-B", Path.Combine(Repository.Clients, client), arguments, limit);
        Assert.SkipWhen(run is null, "python3 is not installed");
        return run!;
    }

    /// <summary>Generates stubs from proto/ into a folder.</summary>
    public static async Task Generate(string folder)
    {
        var import = await Try(Program, "-c", "import grpc, google.protobuf", []);
        Assert.SkipUnless(import is { ExitCode: 0 }, "python3-grpcio and python3-protobuf are not installed for /usr/bin/python3");
        Directory.CreateDirectory(folder);
        string[] protos =
        [
            .. Directory.EnumerateFiles(Path.Combine(Repository.Root, "proto"), "*.proto", SearchOption.AllDirectories).Order(StringComparer.Ordinal),
            Path.Combine(Repository.Clients, "status.proto"),
        ];
        string[] arguments =
            [$"-I{Path.Combine(Repository.Root, "proto")}", $"-I{Repository.Clients}", $"--python_out={folder}", $"--grpc_python_out={folder}", .. protos];

        // Debian 12's grpc_tools is too old for optional fields in proto3; its protoc is not.
        var plugin = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).Select(p => Path.Combine(p, "grpc_python_plugin"))
            .FirstOrDefault(File.Exists);
        if (plugin is not null && await Try("protoc", $"--plugin=protoc-gen-grpc_python={plugin}", arguments[0], arguments[1..]) is { } generated)
        {
            generated.Exits(0);
            return;
        }

        generated = await Try(Program, "-m", "grpc_tools.protoc", arguments);
        Assert.SkipUnless(generated is { ExitCode: 0 }, $"protoc can not make Python stubs here; install protobuf-compiler-grpc: {generated?.Err.Trim()}");
    }

    private static async Task<Run?> Try(string program, string first, string second, string[] rest, TimeSpan? limit = null)
    {
        try
        {
            return await Tool.RunFor(limit ?? Deadline.Usual, program, [first, second, .. rest]);
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
    }
}
