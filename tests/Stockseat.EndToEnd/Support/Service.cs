using System.Diagnostics;
using System.Net;
using System.Runtime.InteropServices;
using System.Text.Json;
using System.Text.RegularExpressions;
using Stockseat.Tests.Support;

namespace Stockseat.EndToEnd.Support;

/// <summary>The service as a process of its own. Whatever happens, the process ends with its test.</summary>
internal sealed partial class Service : IAsyncDisposable
{
    private const int SigTerm = 15;

    private readonly Built _program;
    private readonly Process _process;
    private readonly Task<string> _output;
    private readonly Task<string> _log;

    private Service(Built program, Process process, string ready, Task<string> log)
    {
        (_program, _process, _log) = (program, process, log);
        _output = process.StandardOutput.ReadToEndAsync();
        var match = Ready().Match(ready);
        Assert.True(match.Success, $"no ready line: {ready}");
        Grpc = IPEndPoint.Parse(match.Groups["grpc"].Value);
        Line = IPEndPoint.Parse(match.Groups["line"].Value);
        LineTls = match.Groups["tls"] is { Success: true, Value: var tls } ? IPEndPoint.Parse(tls) : null;
        Page = IPEndPoint.Parse(match.Groups["page"].Value);
    }

    public IPEndPoint Grpc { get; }

    public IPEndPoint Line { get; }

    /// <summary>Where lines are answered over TLS; null: nowhere.</summary>
    public IPEndPoint? LineTls { get; }

    /// <summary>Where the pages are.</summary>
    public IPEndPoint Page { get; }

    /// <summary>Everything that the service wrote to stderr, once it has ended.</summary>
    public Task<string> Stderr => _log.Within("the end of stderr");

    /// <summary>Starts on free ports and waits until the service says that it is ready.</summary>
    public static async Task<Service> Start(Built program, Cell cell)
    {
        var process = program.Start(["serve", "--config", cell.Config, "--data", cell.Data],
            ("STOCKSEAT_LISTEN_GRPC", "127.0.0.1:0"), ("STOCKSEAT_LISTEN_LINE", "127.0.0.1:0"), ("STOCKSEAT_LISTEN_PAGE", "127.0.0.1:0"));
        try
        {
            var log = process.StandardError.ReadToEndAsync();
            return await process.StandardOutput.ReadLineAsync().Within("the ready line") is { } ready
                ? new(program, process, ready, log)
                : throw new InvalidOperationException($"the service ended: {await log.Within("the end of stderr")}");
        }
        catch
        {
            process.Kill();
            process.Dispose();
            throw;
        }
    }

    /// <summary>Runs a client command against the service.</summary>
    public Task<Run> Ask(params string[] arguments) => _program.Run([.. arguments, "--server", $"http://{Grpc}"]);

    public Task<LineSocket> Connect() => LineSocket.Connect(Line);

    /// <summary>SIGKILL: the process can't react.</summary>
    public async Task Kill()
    {
        _process.Kill();
        await _process.Ends("the service");
    }

    /// <summary>SIGTERM; only the ready line was on stdout, and every line of the log is one JSON object.</summary>
    public async Task<(int ExitCode, IReadOnlyList<JsonElement> Log)> Terminate()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "this system has no SIGTERM");
        Assert.Equal(0, Signal(_process.Id, SigTerm));
        await _process.Ends("the service");
        Assert.Empty(await _output.Within("the end of stdout"));
        var lines = (await _log.Within("the end of stderr")).Split('\n', StringSplitOptions.RemoveEmptyEntries);
        var log = lines.Select(l => JsonSerializer.Deserialize<JsonElement>(l)).ToList();
        Assert.All(log, l => Assert.Equal(JsonValueKind.Object, l.ValueKind));
        return (_process.ExitCode, log);
    }

    public async ValueTask DisposeAsync()
    {
        if (!_process.HasExited)
        {
            await Kill();
        }

        _process.Dispose();
    }

    [GeneratedRegex(@"^ready grpc=(?<grpc>127\.0\.0\.1:[1-9]\d*) line=(?<line>127\.0\.0\.1:[1-9]\d*)( line-tls=(?<tls>127\.0\.0\.1:[1-9]\d*))?"
        + @" page=(?<page>127\.0\.0\.1:[1-9]\d*)$")]
    private static partial Regex Ready();

    [DllImport("libc", EntryPoint = "kill")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    internal static extern int Signal(int process, int signal);
}
