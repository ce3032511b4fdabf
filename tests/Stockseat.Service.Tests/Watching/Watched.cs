using System.Security.Cryptography;
using System.Text.Json;
using System.Text.Json.Nodes;
using Stockseat.Service.Tests.Support;
using Stockseat.Service.Watching;
using Stockseat.Tests.Support.Clocks;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Watching;

/// <summary>
/// A whole service over real files, whose clock moves only while a test waits: a write in between is seen completely or not at all.
/// </summary>
internal sealed class Watched : IAsyncDisposable
{
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(250);

    private readonly SteppedTime _time;

    private Watched(Bench bench, SteppedTime time) => (Bench, _time) = (bench, time);

    public Bench Bench { get; }

    public FixtureService.FixtureServiceClient Fixtures => new(Bench.Channel);

    public LedgerService.LedgerServiceClient Ledger => new(Bench.Channel);

    public IEnumerable<string> Log => Bench.Log.All.Select(l => l.Text);

    public static async Task<Watched> Start(Action<JsonObject>? configure = null, Action<Bench>? prepare = null, Func<string, IFolders>? folders = null)
    {
        var time = new SteppedTime();
        return new(
            await Bench.Start(
                time,
                settings =>
                {
                    // Hours pass while a test waits.
                    settings["Limits"] = JsonNode.Parse("""{ "FirstLine": "12:00:00", "Line": "12:00:00", "Reply": "12:00:00" }""");
                    configure?.Invoke(settings);
                },
                prepare,
                folders),
            time);
    }

    public string Folder(string fixture = "pinbed-1") => System.IO.Path.Combine(Bench.Folder, "fixtures", fixture);

    public string Path(int number, string fixture = "pinbed-1") => System.IO.Path.Combine(Folder(fixture), $"r{number:0000}.json");

    /// <summary>Lets time pass until the condition is true.</summary>
    public Task Until(Func<Task<bool>> holds, string what) => Deadline.Until(
        holds,
        what,
        async () =>
        {
            await _time.Pass(Step);
            await Task.Delay(1); // so that the service reads the folders
        },
        () => string.Join("; ", Log));

    public Task Until(Func<bool> holds, string what) => Until(() => Task.FromResult(holds()), what);

    public Task Logged(string text, int times = 1) => Until(() => Log.Count(l => l.Contains(text, StringComparison.Ordinal)) >= times, text);

    /// <summary>The revisions of a fixture; none when the fixture is unknown.</summary>
    public async Task<IReadOnlyList<RevisionSummary>> List(string fixture = "pinbed-1") =>
        await Shown(fixture) is null ? [] : (await Fixtures.ListRevisionsAsync(new() { Fixture = fixture })).Revisions;

    public async Task<Fixture?> Shown(string fixture = "pinbed-1") =>
        (await Fixtures.ListFixturesAsync(new())).Fixtures.SingleOrDefault(f => f.Fixture_ == fixture);

    public Task UntilState(int number, RevisionState state, string fixture = "pinbed-1") =>
        Until(async () => (await List(fixture)).Any(r => r.Revision == number && r.State == state), $"revision {number} of {fixture} {state}");

    public Task UntilRefused(string reason, string fixture = "pinbed-1") =>
        Until(async () => (await Shown(fixture))?.Refused == reason, $"{fixture} refused: '{reason}'");

    public async Task<IReadOnlyList<JsonElement>> Entries(string kind, long after = 0)
    {
        var entries = new List<JsonElement>();
        for (string? token = ""; token is not null;)
        {
            var page = await Ledger.ListEntriesAsync(new() { Kind = kind, After = after, PageSize = 1000, PageToken = token });
            entries.AddRange(page.Entries.Select(e => JsonDocument.Parse(e.Body).RootElement));
            token = page.NextPageToken.Length > 0 ? page.NextPageToken : null;
        }

        return entries;
    }

    /// <summary>Ends when a file with these bytes was rejected after an entry.</summary>
    public Task UntilRejected(byte[] bytes, long after)
    {
        var hash = Convert.ToHexStringLower(SHA256.HashData(bytes));
        return Until(async () => (await Entries("revision-rejected", after)).Any(e => e.GetProperty("file").GetString() == hash),
            $"{bytes.Length} bytes rejected");
    }

    /// <summary>The last serial.</summary>
    public async Task<long> Serial() => (await Fixtures.ListFixturesAsync(new())).Serial;

    /// <summary>Everything that is shown of the fixtures, without the values that a restart may change.</summary>
    public async Task<string> All()
    {
        var fixtures = (await Fixtures.ListFixturesAsync(new())).Fixtures;
        var revisions = new List<string>();
        foreach (var fixture in fixtures)
        {
            revisions.AddRange((await List(fixture.Fixture_)).Select(r => r.ToString()));
        }

        return string.Join("\n", fixtures.Select(f => f.ToString()).Concat(revisions));
    }

    public ValueTask DisposeAsync() => Bench.DisposeAsync();
}
