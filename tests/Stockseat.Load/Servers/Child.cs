using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Text.RegularExpressions;

namespace Stockseat.Load.Servers;

/// <summary>A server under load, as a process of its own; the process ends with its owner.</summary>
internal sealed partial class Child : IAsyncDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly Process _process;
    private readonly Task _output;
    private readonly Task<string> _log;

    private Child(Process process, string ready, Task<string> log)
    {
        (_process, _log) = (process, log);
        _output = process.StandardOutput.ReadToEndAsync();
        var match = Ready().Match(ready);
        if (!match.Success)
        {
            throw new InvalidOperationException($"no ready line: {ready}");
        }

        (Grpc, Line) = (IPEndPoint.Parse(match.Groups["grpc"].Value), IPEndPoint.Parse(match.Groups["line"].Value));
        LineTls = match.Groups["tls"] is { Success: true, Value: var tls } ? IPEndPoint.Parse(tls) : null;
        Page = match.Groups["page"] is { Success: true, Value: var page } ? IPEndPoint.Parse(page) : null;
    }

    public IPEndPoint Grpc { get; }

    public IPEndPoint Line { get; }

    /// <summary>Where lines are answered over TLS; null: nowhere.</summary>
    public IPEndPoint? LineTls { get; }

    /// <summary>Where the pages are; null: nowhere.</summary>
    public IPEndPoint? Page { get; }

    /// <summary>Starts a program and waits until the program says that it is ready.</summary>
    public static async Task<Child> Start(string program, IEnumerable<string> arguments, CancellationToken token)
    {
        var start = new ProcessStartInfo(program) { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }

        // The measured configuration is the one in the file, on free ports.
        foreach (var name in start.Environment.Keys.Where(k => k.StartsWith("STOCKSEAT_", StringComparison.Ordinal)).ToList())
        {
            start.Environment.Remove(name);
        }

        var process = Process.Start(start)!;
        try
        {
            var log = process.StandardError.ReadToEndAsync(CancellationToken.None);
            return await process.StandardOutput.ReadLineAsync(token).AsTask().WaitAsync(Patience, token) is { } ready
                ? new(process, ready, log)
                : throw new InvalidOperationException($"{program} ended: {await log}");
        }
        catch
        {
            process.Kill(entireProcessTree: true);
            process.Dispose();
            throw;
        }
    }

    /// <summary>The processor time until now.</summary>
    public TimeSpan ProcessorTime => Native.ProcessorTime(_process.Id);

    /// <summary>The memory that is resident now, in MB of 10⁶ bytes.</summary>
    public double ResidentMegabytes()
    {
        const string key = "VmRSS:";
        var line = File.ReadLines($"/proc/{_process.Id}/status").First(l => l.StartsWith(key, StringComparison.Ordinal));
        return long.Parse(line[key.Length..].Replace("kB", "", StringComparison.Ordinal), CultureInfo.InvariantCulture) * 1024 / 1e6;
    }

    public async ValueTask DisposeAsync()
    {
        if (!_process.HasExited)
        {
            _ = Native.Signal(_process.Id, Native.SigTerm);
            try
            {
                await _process.WaitForExitAsync().WaitAsync(Patience);
            }
            catch (TimeoutException)
            {
                _process.Kill(entireProcessTree: true);
            }
        }

        await Task.WhenAll(_output, _log);
        _process.Dispose();
    }

    [GeneratedRegex(@"^ready grpc=(?<grpc>\S+) line=(?<line>\S+)( line-tls=(?<tls>\S+))?( page=(?<page>\S+))?$")]
    private static partial Regex Ready();
}
