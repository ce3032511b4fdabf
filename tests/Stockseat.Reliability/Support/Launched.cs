using System.Diagnostics;
using System.Net;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using Stockseat.EndToEnd.Support;
using Stockseat.Tests.Support;

namespace Stockseat.Reliability.Support;

/// <summary>The service as a process that may fail at any moment: even before it is ready, and under a fault injector.</summary>
internal sealed partial class Launched : IAsyncDisposable
{
    private const string Waiting = "Listening, and refusing every ask";
    private const int SigTerm = 15;
    private const int SigContinue = 18;
    private const int SigStop = 19;

    private readonly Process _process;
    private readonly Task<string?> _first;
    private readonly StringBuilder _logged = new();
    private Task<string> _log = Task.FromResult("nobody read it");

    private Launched(Process process, bool heard = true)
    {
        _process = process;
        _first = process.StandardOutput.ReadLineAsync();
        if (heard)
        {
            Hear();
        }
    }

    public int Id => _process.Id;

    public bool HasEnded => _process.HasExited;

    public IPEndPoint Grpc { get; private set; } = new(IPAddress.None, 0);

    public IPEndPoint Line { get; private set; } = new(IPAddress.None, 0);

    /// <summary>Where the pages are; null: nowhere, or not known.</summary>
    public IPEndPoint? Page { get; private set; }

    /// <summary>Starts on free ports and waits for nothing.</summary>
    /// <param name="cell">Its configuration.</param>
    /// <param name="data">Its data folder; null: the cell's.</param>
    /// <param name="under">A program and its arguments that run the service, as one process.</param>
    /// <param name="environment">Additional variables in its environment.</param>
    public static Launched Begin(Cell cell, string? data = null, IEnumerable<string>? under = null, params (string Name, string Value)[] environment)
    {
        string[] command = [.. under ?? [], Repository.Program, "serve", "--config", cell.Config, "--data", data ?? cell.Data];
        return new(Tool.Start(command[0], command[1..], null,
            [("STOCKSEAT_LISTEN_GRPC", "127.0.0.1:0"), ("STOCKSEAT_LISTEN_LINE", "127.0.0.1:0"), ("STOCKSEAT_LISTEN_PAGE", "127.0.0.1:0"), .. environment]));
    }

    /// <summary>Starts, and waits until the service is ready.</summary>
    public static async Task<Launched> Start(Cell cell, string? data = null, IEnumerable<string>? under = null,
        params (string Name, string Value)[] environment)
    {
        var service = Begin(cell, data, under, environment);
        try
        {
            return await service.Ready() ? service : throw new InvalidOperationException($"the service ended: {await service.Log()}");
        }
        catch
        {
            await service.DisposeAsync();
            throw;
        }
    }

    /// <summary>Starts with a stderr that is already full and that nobody reads; a Linux pipe takes 64 KiB.</summary>
    public static async Task<Launched> StartUnread(Cell cell)
    {
        string[] command = ["-c", "head -c 65536 /dev/zero >&2; exec \"$0\" \"$@\"", Repository.Program, "serve", "--config", cell.Config, "--data", cell.Data];
        var service = new Launched(Tool.Start("sh", command, null,
            [("STOCKSEAT_LISTEN_GRPC", "127.0.0.1:0"), ("STOCKSEAT_LISTEN_LINE", "127.0.0.1:0"), ("STOCKSEAT_LISTEN_PAGE", "none")]), heard: false);
        try
        {
            Assert.True(await service.Ready(), "the service ended before it was ready");
            return service;
        }
        catch
        {
            await service.DisposeAsync();
            throw;
        }
    }

    /// <summary>From now on the service's stderr is read.</summary>
    public void Hear() => _log = ReadLog();

    /// <summary>Whether the service said that it is ready; false when it ended before.</summary>
    public async Task<bool> Ready()
    {
        if (await _first.Within("the ready line") is not { } ready)
        {
            return false;
        }

        var match = ReadyLine().Match(ready);
        Assert.True(match.Success, $"no ready line: {ready}");
        (Grpc, Line) = (IPEndPoint.Parse(match.Groups["grpc"].Value), IPEndPoint.Parse(match.Groups["line"].Value));
        Page = match.Groups["page"] is { Success: true, Value: var page } ? IPEndPoint.Parse(page) : null;
        return true;
    }

    /// <summary>Whether the service listens and refuses every ask, since the ledger can't be written; false when it is ready or ended before.</summary>
    public async Task<bool> Waits()
    {
        string? WaitingLine() => Lines().FirstOrDefault(l => l.Contains(Waiting, StringComparison.Ordinal));
        await Deadline.Until(() => _first.IsCompleted || WaitingLine() is not null, "a service that is ready, refuses or ends");
        if (WaitingLine() is not { } line)
        {
            return false;
        }

        var log = JsonDocument.Parse(line).RootElement;
        (Grpc, Line) = (IPEndPoint.Parse(log.GetProperty("Grpc").GetString()!), IPEndPoint.Parse(log.GetProperty("Line").GetString()!));
        Page = IPEndPoint.TryParse(log.GetProperty("Page").GetString()!, out var page) ? page : null;
        return true;
    }

    /// <summary>Whether the ready line has been written.</summary>
    public bool SaidReady => _first is { IsCompletedSuccessfully: true, Result: not null };

    /// <summary>The text of the board.</summary>
    public async Task<string> Board()
    {
        using var http = new HttpClient();
        return await http.GetStringAsync($"http://{Page}/").Within("the board");
    }

    public Task<LineSocket> Connect() => LineSocket.Connect(Line);

    public Task<Run> Ask(params string[] arguments) => Built.Ordinary.Run([.. arguments, "--server", $"http://{Grpc}"]);

    /// <summary>Stops every thread of the service where it is; a system call that is under way finishes first.</summary>
    public async Task Freeze()
    {
        Assert.Equal(0, Service.Signal(Id, SigStop));
        await Deadline.Until(() => Directory.EnumerateDirectories($"/proc/{Id}/task").All(t => State(t) is 'T' or 't' or null), "the stop of every thread");
    }

    public void Thaw() => Assert.Equal(0, Service.Signal(Id, SigContinue));

    /// <summary>SIGTERM, unless the service has ended.</summary>
    public async Task<int> Terminate()
    {
        if (!HasEnded)
        {
            Assert.Equal(0, Service.Signal(Id, SigTerm));
        }

        return await ExitCode();
    }

    public Task<int> ExitCode() => _process.Ends("the service");

    /// <summary>SIGKILL.</summary>
    public async Task Kill()
    {
        _process.Kill();
        await ExitCode();
    }

    /// <summary>Everything that the service wrote to stderr, once it has ended.</summary>
    public Task<string> Log() => _log.Within("the end of stderr");

    public async ValueTask DisposeAsync()
    {
        if (!HasEnded)
        {
            await Kill();
        }

        _process.Dispose();
    }

    private string[] Lines()
    {
        lock (_logged)
        {
            return _logged.ToString().Split('\n');
        }
    }

    private async Task<string> ReadLog()
    {
        while (await _process.StandardError.ReadLineAsync() is { } line)
        {
            lock (_logged)
            {
                _logged.Append(line).Append('\n');
            }
        }

        return string.Join('\n', Lines());
    }

    /// <summary>A thread's state; null when it has ended meanwhile.</summary>
    private static char? State(string task)
    {
        try
        {
            var text = File.ReadAllText(Path.Combine(task, "stat"));
            return text[text.LastIndexOf(')') + 2];
        }
        catch (IOException)
        {
            return null;
        }
    }

    [GeneratedRegex(@"^ready grpc=(?<grpc>\S+) line=(?<line>\S+)( line-tls=(?<tls>\S+))?( page=(?<page>\S+))?$")]
    private static partial Regex ReadyLine();
}
