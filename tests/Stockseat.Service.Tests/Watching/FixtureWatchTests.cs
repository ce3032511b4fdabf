using System.Runtime.CompilerServices;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Time.Testing;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Adoption;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Writing;
using Stockseat.Service.Watching;

namespace Stockseat.Service.Tests.Watching;

/// <summary>The watch over folders that misbehave, with a ledger of its own and a clock to set.</summary>
public sealed class FixtureWatchTests : IAsyncLifetime
{
    private readonly string _root = Directory.CreateTempSubdirectory("stockseat-watch-").FullName;
    private readonly CountingTime _time = new();
    private readonly Lines _log = new();
    private readonly Folders _folders = new();
    private LedgerWriter _writer = null!;
    private FixtureWatch _watch = null!;

    public async ValueTask InitializeAsync()
    {
        _writer = LedgerWriter.Open(_root, _time);
        // Folders that hang are timed by the real clock.
        _watch = new(
            _writer, new(Path.Combine(_root, "nowhere"), FirstAdoption.Manual), new(_folders, new(), TimeProvider.System), new(), _time, _log);
        await _watch.StartAsync(CancellationToken.None).Within("the watch's start");
    }

    public async ValueTask DisposeAsync()
    {
        _folders.Hang.Set();
        _folders.ReadHang.Set();
        await Stop();
        _watch.Dispose();
        Assert.Null(await _writer.Stop().Within("the writer's end"));
        _writer.Dispose();
        Directory.Delete(_root, recursive: true);
    }

    [Fact]
    public async Task Folders_that_can_not_be_listed_stay_as_they_were_and_are_reported_once()
    {
        _folders.Is = [new("bed", [], [])];
        await Until(() => _writer.Situation.Find("bed") is not null);
        _folders.Fault = new IOException("the share is gone");
        await Until(() => _log.All.Any(l => l.Contains("the share is gone", StringComparison.Ordinal)));
        await Polls(5);
        Assert.NotNull(_writer.Situation.Find("bed"));

        _folders.Fault = null;
        await Until(() => _log.All.Any(l => l.Contains("can be listed again", StringComparison.Ordinal)));
        Assert.Equal(["Fixture bed is new", "Fixture bed refuses all asks", "The fixtures' folder", "The fixtures' folder"],
            _log.All.Select(l => l[..Math.Min(l.Length, l.Contains("refuses all asks", StringComparison.Ordinal) ? 28 : l[0] == 'T' ? 20 : 99)]));
    }

    [Fact]
    public async Task A_bug_in_a_look_is_reported_once_and_does_not_end_the_watch()
    {
        _folders.Fault = new InvalidOperationException("a bug");
        await Until(() => _log.All.Any(l => l.Contains("a bug", StringComparison.Ordinal)));
        await Polls(3);
        _folders.Fault = null;
        _folders.Is = [new("bed", [], [])];
        await Until(() => _writer.Situation.Find("bed") is not null);

        Assert.Single(_log.All, l => l.Contains("a bug", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Nothing_is_reported_again_at_each_poll()
    {
        _folders.Is = [new("bed", [new(1, "bed/r0001.json", "ab", new(null, ["bed/r0001.json: is not JSON"]))], [])];
        await Until(() => _log.All.Any(l => l.Contains("faulty file: bed/r0001.json: is not JSON", StringComparison.Ordinal)));
        await Until(() => _log.All.Any(l => l.Contains("refuses all asks", StringComparison.Ordinal)));
        var (lines, serial) = (_log.All.Count, _writer.Serial);
        await Polls(40);

        Assert.Equal((lines, serial, 1L), (_log.All.Count, _writer.Serial, serial));
    }

    [Fact]
    public async Task A_faulty_file_that_an_adoption_found_first_is_recorded_too()
    {
        var folder = new FixtureFolder("bed", [new(1, "bed/r0001.json", "ab", new(null, ["bed/r0001.json: is not JSON"]))], []);
        _folders.Is = [folder];
        var slip = new AdoptAsk(new("bench", null, null), "bed", 9) { By = "setter", Why = "a slip", Folder = folder };
        await _writer.Append(slip).Within("the refusal of an adoption");
        await Until(() => _writer.Situation.Find("bed")?.Rejected == "ab");
    }

    [Fact]
    public async Task A_change_that_the_ledger_did_not_take_is_offered_again_until_it_does()
    {
        Execute("CREATE TRIGGER full BEFORE INSERT ON entry BEGIN SELECT RAISE(ABORT, 'no room'); END");
        _folders.Is = [new("bed", [new(1, "bed/r0001.json", "ab", new(null, ["bed/r0001.json: is not JSON"]))], [])];
        await Until(() => _log.All.Any(l => l.Contains("can't be taken yet: ledger-unavailable", StringComparison.Ordinal)));
        await Polls(10);
        Assert.Null(_writer.Situation.Find("bed"));

        Execute("DROP TRIGGER full");
        await Until(() => _writer.Situation.Find("bed")?.Rejected == "ab");
        Assert.Single(_log.All, l => l.Contains("can't be taken yet", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_stop_leaves_no_timer()
    {
        await Polls(2);
        await Stop();
        Assert.Equal(0, _time.Timers);

        var looks = _folders.Looks;
        await _time.Pass(TimeSpan.FromMinutes(1));
        Assert.Equal(looks, _folders.Looks);
    }

    [Fact]
    public async Task A_stop_does_not_wait_for_a_look_that_hangs()
    {
        _folders.Hang.Reset();
        await Until(() => _folders.Hangs);
        await Stop();
        Assert.False(_folders.Hang.IsSet);
    }

    [Fact]
    public async Task A_look_has_a_thread_of_its_own_so_that_a_hanging_one_does_not_stop_the_clock()
    {
        await Polls(5);
        Assert.Equal(0, _folders.OnThreadsOfOthers);

        _folders.Hang.Reset();
        await Until(() => _folders.Hangs);
        await _time.Pass(TimeSpan.FromMinutes(1));
        Assert.False(_folders.Hang.IsSet);
    }

    [Fact]
    public async Task Folders_whose_listing_hangs_are_read_one_by_one_and_reported_once()
    {
        _folders.Is = [new("bed", [], [])];
        await Until(() => _writer.Situation.Find("bed") is not null);
        _folders.Hang.Reset();
        await Until(() => _log.All.Any(l => l.Contains("can't be listed (the system did not answer within 3 s)", StringComparison.Ordinal)));

        _folders.Is = [new("bed", [Faulty(2)], [])];
        await Until(() => _writer.Situation.Find("bed")?.Rejected == "2");
        _folders.Hang.Set();
        await Until(() => _log.All.Any(l => l.Contains("can be listed again", StringComparison.Ordinal)));
        Assert.Single(_log.All, l => l.Contains("can't be listed", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_folder_that_hangs_stops_no_other_keeps_its_revision_and_recovers_by_itself()
    {
        _folders.Is = [new("bed", [], []), new("rack", [Faulty(1)], [])];
        await Until(() => _writer.Situation.Find("rack")?.Rejected == "1");
        _folders.HangingRead = "rack";
        await Until(() => _log.All.Any(l => l.Contains("the folder of rack could not be read within 3 s", StringComparison.Ordinal)));
        Assert.Equal("1", _writer.Situation.Find("rack")!.Folder!.Find(1)!.FileHash);

        _folders.Is = [new("bed", [Faulty(2)], []), new("rack", [Faulty(1), Faulty(3)], [])];
        await Until(() => _writer.Situation.Find("bed")?.Rejected == "2");
        await Polls(40);
        Assert.Equal((1, 1), (_folders.HangingReads, _log.All.Count(l => l.Contains("could not be read within", StringComparison.Ordinal))));

        _folders.HangingRead = null;
        _folders.ReadHang.Set();
        await Until(() => _writer.Situation.Find("rack")?.Rejected == "3"
            && _log.All.Any(l => l.Contains("The folder of fixture rack can be read again", StringComparison.Ordinal)));
    }

    private static RevisionFile Faulty(int number) => new(number, $"r{number:0000}.json", $"{number}", new(null, [$"r{number:0000}.json: is not JSON"]));

    private void Execute(string sql)
    {
        using var connection = new SqliteConnection($"Data Source={Path.Combine(_root, LedgerFile.Name)};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    private Task Polls(int count)
    {
        var looks = _folders.Looks;
        return Until(() => _folders.Looks >= looks + count);
    }

    private Task Stop() => _watch.StopAsync(CancellationToken.None).Within("the watch's stop");

    private Task Until(Func<bool> holds, [CallerArgumentExpression(nameof(holds))] string what = "") =>
        Deadline.Until(holds, what, () => _time.Pass(TimeSpan.FromMilliseconds(250)), () => string.Join("; ", _log.All));

    private sealed class CountingTime : FakeTimeProvider
    {
        private int _timers;

        public int Timers => Volatile.Read(ref _timers);

        public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) =>
            new Counted(this, base.CreateTimer(callback, state, dueTime, period));

        private sealed class Counted : ITimer
        {
            private readonly CountingTime _time;
            private readonly ITimer _timer;
            private int _disposed;

            public Counted(CountingTime time, ITimer timer)
            {
                (_time, _timer) = (time, timer);
                Interlocked.Increment(ref time._timers);
            }

            public bool Change(TimeSpan dueTime, TimeSpan period) => _timer.Change(dueTime, period);

            public void Dispose()
            {
                if (Interlocked.Exchange(ref _disposed, 1) == 0)
                {
                    Interlocked.Decrement(ref _time._timers);
                    _timer.Dispose();
                }
            }

            public ValueTask DisposeAsync()
            {
                Dispose();
                return ValueTask.CompletedTask;
            }
        }
    }

    private sealed class Folders : IFolders
    {
        private int _looks;
        private int _onThreadsOfOthers;

        public volatile Exception? Fault;

        public volatile IReadOnlyList<FixtureFolder> Is = [];

        public ManualResetEventSlim ReadHang { get; } = new();

        public ManualResetEventSlim Hang { get; } = new(initialState: true);

        public bool Hangs { get; private set; }

        public int Looks => Volatile.Read(ref _looks);

        /// <summary>How many looks were on a thread of the pool, where the tests' clock is set too.</summary>
        public int OnThreadsOfOthers => Volatile.Read(ref _onThreadsOfOthers);

        public IReadOnlyList<string> Names()
        {
            Interlocked.Increment(ref _looks);
            Interlocked.Add(ref _onThreadsOfOthers, Thread.CurrentThread.IsThreadPoolThread ? 1 : 0);
            Hangs = !Hang.IsSet;
            Hang.Wait();
            return Fault is { } fault ? throw fault : [.. Is.Select(f => f.Fixture)];
        }

        public FolderStamp? Stamp(string fixture) => null;

        /// <summary>The fixture whose folder hangs until <see cref="ReadHang"/> is set.</summary>
        public volatile string? HangingRead;

        private int _hangingReads;

        public int HangingReads => Volatile.Read(ref _hangingReads);

        public FixtureFolder? Read(string fixture, params ReadOnlySpan<FixtureFolder?> known)
        {
            if (fixture == HangingRead)
            {
                Interlocked.Increment(ref _hangingReads);
                ReadHang.Reset();
                ReadHang.Wait();
            }

            return Is.FirstOrDefault(f => f.Fixture == fixture);
        }
    }
}
