using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using Serilog;
using Serilog.Core;
using Serilog.Events;
using Stockseat.Service.Clients;
using Stockseat.Service.Configuration;
using Stockseat.Service.Hosting;
using Stockseat.Service.Lines.Forms;
using Stockseat.Service.Watching;

namespace Stockseat.Service.Tests.Support;

/// <summary>A whole service on free ports, with the demo's fixtures in a folder of its own. An error in its log fails the test.</summary>
internal sealed class Bench : IAsyncDisposable
{
    private readonly Logger _logger;
    private readonly TimeProvider _time;
    private IFolders? _folders;
    private RunningService? _service;
    private LimitedChannel? _channel;

    private Bench(TimeProvider time)
    {
        _time = time;
        _logger = new LoggerConfiguration().MinimumLevel.Information().WriteTo.Sink(Log).CreateLogger();
    }

    /// <summary>A client that may do everything.</summary>
    public static Client Client { get; } = new() { Name = "bench", Cell = "demo", From = [IPNetwork.Parse("127.0.0.0/8")], Roles = Roles.All,
        Form = Form.Named };

    public string Folder { get; } = Directory.CreateTempSubdirectory("stockseat-service-").FullName;

    public Sink Log { get; } = new();

    public RunningService Service => _service!;

    public LimitedChannel Channel => _channel ??= LimitedChannel.For(Service.Grpc);

    public static async Task<Bench> Start(TimeProvider? time = null, Action<JsonObject>? configure = null, Action<Bench>? prepare = null,
        Func<string, IFolders>? folders = null)
    {
        var bench = new Bench(time ?? TimeProvider.System);
        bench._folders = folders?.Invoke(Path.Combine(bench.Folder, "fixtures"));
        CopyDemo(Path.Combine(bench.Folder, "fixtures"));
        var settings = new JsonObject
        {
            ["Listen"] = new JsonObject { ["Grpc"] = "127.0.0.1:0", ["Line"] = "127.0.0.1:0", ["Page"] = "127.0.0.1:0" },
            ["Data"] = "data",
            ["FirstAdoption"] = "automatic",
            ["Clients"] = new JsonArray(new JsonObject { ["Name"] = "bench", ["Cell"] = "demo", ["From"] = new JsonArray("127.0.0.0/8"), ["Roles"] = AllRoles(),
                ["Rate"] = 1_000_000 }),
            ["Gauges"] = JsonNode.Parse("""{ "bench-2": { "Unit": "mm", "Agreement": "0.10 mm", "Freshness": "02:00:00" } }"""),
            ["Lots"] = JsonNode.Parse(
                """{ "A1077": { "Nominal": "92.5 mm", "Tolerance": "h11" }, "B2": { "Nominal": "90 mm", "Plus": "0.8 mm","""
                + """ "Minus": "0.8 mm", "OutOfRound": "0.6 mm" }, "C3": {} }"""),
        };
        configure?.Invoke(settings);
        bench.Write("stockseat.json", settings.ToJsonString());
        prepare?.Invoke(bench);
        await bench.Begin();
        return bench;
    }

    public string Write(string file, string text)
    {
        var path = Path.Combine(Folder, file);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllText(path, text);
        return path;
    }

    /// <summary>The pin bed's revision 3 with another number, and with other changes.</summary>
    public string WritePins(int number, string fixture = "pinbed-1", params (string Old, string New)[] edits)
    {
        var text = Repository.Edit(Repository.Pins, "\"revision\": 3", $"\"revision\": {number}");
        text = Repository.Edit(text, "\"fixture\": \"pinbed-1\"", $"\"fixture\": \"{fixture}\"");
        return Write($"fixtures/{fixture}/r{number:0000}.json", edits.Aggregate(text, (t, e) => Repository.Edit(t, e.Old, e.New)));
    }

    public Task<LineClient> Line() => LineClient.Connect(Service.Line);

    /// <summary>Measures stock of 92.4 mm in each of the demo's fixtures.</summary>
    public async Task MeasureAll()
    {
        using var line = await Line();
        foreach (var fixture in new[] { "pinbed-1", "rollers-3", "veerack-2" })
        {
            Assert.StartsWith("ok", await line.Ask($"measured fixture={fixture} diameter=92.4mm"), StringComparison.Ordinal);
        }
    }

    /// <summary>
    /// Stops the service; returns the exit code. A clock that the test sets stands still meanwhile, so the service's own limit for a stop can't end it.
    /// </summary>
    public async Task<int> Stop()
    {
        _channel?.Dispose();
        _channel = null;
        var service = _service;
        _service = null;
        return service is null ? -1 : await service.Stop().Within("the service's stop");
    }

    /// <summary>The beginning of the errors that the test causes; null: it causes none, and any error fails it.</summary>
    public string? Expected { get; set; }

    public async Task Restart(Action? between = null)
    {
        Assert.Equal(0, await Stop());
        between?.Invoke();
        await Begin();
    }

    public async ValueTask DisposeAsync()
    {
        await Stop();
        await _logger.DisposeAsync().Within("the end of the log");
        Directory.Delete(Folder, recursive: true);
        Assert.DoesNotContain(Log.Errors, e => Expected is null || !e.StartsWith(Expected, StringComparison.Ordinal));
    }

    /// <summary>A second service over the same folders; it should not start.</summary>
    public async Task StartAnother()
    {
        await using var another = await RunningService.Start(Read(), _time, _logger).Within("the start of a second service");
    }

    public static JsonArray AllRoles() => ["locate", "measure", "review", "calibrate"];

    private async Task Begin() => _service = await RunningService.Start(Read(), _time, _logger, folders: _folders).Within("the service's start");

    private Settings Read()
    {
        var reading = SettingsReader.Read(new(Path.Combine(Folder, "stockseat.json")), new Dictionary<string, string>());
        Assert.Empty(reading.Faults);
        return reading.Settings!;
    }

    /// <summary>Copies a fixture of config/examples beside the demo's.</summary>
    public void CopyExample(string fixture)
    {
        var target = Path.Combine(Folder, "fixtures", fixture);
        Directory.CreateDirectory(target);
        File.Copy(Path.Combine(Repository.Fixtures, "..", "examples", fixture, "r0001.json"), Path.Combine(target, "r0001.json"));
    }

    private static void CopyDemo(string target)
    {
        foreach (var path in Directory.EnumerateFiles(Repository.Fixtures, "r*.json", SearchOption.AllDirectories))
        {
            var copy = Path.Combine(target, Path.GetRelativePath(Repository.Fixtures, path));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(path, copy);
        }
    }

    /// <summary>Keeps what was logged, and the culture of the thread that logged it.</summary>
    internal sealed class Sink : ILogEventSink
    {
        private readonly ConcurrentQueue<(LogEvent Event, string Culture)> _events = new();

        public IEnumerable<string> Errors => _events.Where(e => e.Event.Level >= LogEventLevel.Error)
            .Select(e => $"{e.Event.RenderMessage(CultureInfo.InvariantCulture)} {e.Event.Exception}");

        public IEnumerable<(string Text, string Culture)> All => _events.Select(e => (e.Event.RenderMessage(CultureInfo.InvariantCulture), e.Culture));

        public void Emit(LogEvent logEvent) => _events.Enqueue((logEvent, CultureInfo.CurrentCulture.Name));
    }
}
