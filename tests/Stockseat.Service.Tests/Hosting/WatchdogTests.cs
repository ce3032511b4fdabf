using System.Threading.Channels;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Hosting.Systemd;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using Stockseat.Answers.Events;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Writing;
using Stockseat.Service.Hosting;

namespace Stockseat.Service.Tests.Hosting;

/// <summary>What the supervisor hears, with a real writer and a clock that the test sets.</summary>
public sealed class WatchdogTests : IDisposable
{
    private static readonly TimeSpan Interval = TimeSpan.FromSeconds(30);

    private readonly string _folder = Directory.CreateTempSubdirectory("stockseat-watchdog-").FullName;
    private readonly FakeTimeProvider _time = new(new(2026, 11, 25, 8, 0, 0, TimeSpan.Zero));
    private readonly Supervisor _supervisor = new();
    private readonly LedgerWriter _writer;
    private readonly Watchdog _watchdog;

    public WatchdogTests()
    {
        _writer = LedgerWriter.Open(_folder, _time);
        _watchdog = new(_writer.NextTurn, _supervisor, Interval, _time, NullLogger<Watchdog>.Instance);
    }

    [Fact]
    public async Task An_idle_service_reports_twice_in_each_interval()
    {
        await _watchdog.StartAsync(default).Within("the watchdog's start");

        for (var i = 0; i < 4; i++)
        {
            _time.Advance((Interval / 2) - TimeSpan.FromTicks(1));
            Assert.Equal(i, _supervisor.Count);
            _time.Advance(TimeSpan.FromTicks(1));
            Assert.Equal("WATCHDOG=1", await _supervisor.Next());
        }

        Assert.Equal(0, _writer.Serial);
    }

    [Fact]
    public async Task A_hanging_writer_is_not_reported_alive_and_one_that_continues_is()
    {
        using var gate = new ManualResetEventSlim();
        var hangs = new TaskCompletionSource();
        await _watchdog.StartAsync(default).Within("the watchdog's start");
        var stuck = _writer.Append(_ =>
        {
            hangs.SetResult();
            gate.Wait(Deadline.Usual);
            return [];
        });
        await hangs.Task.Within("the moment when the writer hangs");

        for (var i = 0; i < 20; i++)
        {
            _time.Advance(Interval / 2);
        }

        Assert.Equal(0, _supervisor.Count);
        gate.Set();
        await stuck.Within("the commit of the ask that hung");

        // One report for all the time that the writer hung, and the next at its usual time.
        Assert.Equal("WATCHDOG=1", await _supervisor.Next());
        await _writer.NextTurn().Within("the writer's next turn");
        Assert.Equal(1, _supervisor.Count);
        _time.Advance(Interval / 2);
        await _supervisor.Next();
        Assert.Equal(2, _supervisor.Count);
    }

    [Fact]
    public async Task A_ledger_that_cant_be_written_does_not_stop_the_reports()
    {
        Sql("CREATE TRIGGER full BEFORE INSERT ON entry BEGIN SELECT RAISE(ABORT, 'no room'); END");
        var refused = await _writer.Append(_ => [new ServiceStoppedBody()]).Within("the refusal");
        Assert.NotNull(refused.Refusal);
        await _watchdog.StartAsync(default).Within("the watchdog's start");

        for (var i = 0; i < 3; i++)
        {
            _time.Advance(Interval / 2);
            Assert.Equal("WATCHDOG=1", await _supervisor.Next());
        }
    }

    [Fact]
    public async Task A_writer_that_ended_is_not_reported_alive()
    {
        Assert.Null(await _writer.Stop().Within("the writer's end"));
        await _watchdog.StartAsync(default).Within("the watchdog's start");

        _time.Advance(Interval * 10);

        Assert.Equal(0, _supervisor.Count);
    }

    [Fact]
    public async Task After_the_stop_nothing_is_reported()
    {
        await _watchdog.StartAsync(default).Within("the watchdog's start");
        await _watchdog.StopAsync(default).Within("the watchdog's stop");

        _time.Advance(Interval * 10);

        await _writer.NextTurn().Within("the writer's next turn");
        Assert.Equal(0, _supervisor.Count);
    }

    [Theory]
    [InlineData("30000000", null, 30.0)]
    [InlineData("30000000", "", 30.0)]
    [InlineData("1", null, 0.002)]
    [InlineData("18446744073709551615", null, 86400.0)]
    [InlineData("30000000", "1", null)]
    [InlineData("0", null, null)]
    [InlineData("", null, null)]
    [InlineData("-5", null, null)]
    [InlineData("30 s", null, null)]
    [InlineData(null, null, null)]
    public void The_interval_is_the_one_that_the_supervisor_set_for_this_process(string? microseconds, string? process, double? seconds) =>
        Assert.Equal(seconds, Watchdog.Interval(microseconds, process)?.TotalSeconds);

    [Fact]
    public void An_interval_that_names_this_process_counts() =>
        Assert.Equal(TimeSpan.FromSeconds(1), Watchdog.Interval("1000000", $"{Environment.ProcessId}"));

    public void Dispose()
    {
        _watchdog.Dispose();
        _writer.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    private void Sql(string sql)
    {
        using var connection = new SqliteConnection($"Data Source={Path.Combine(_folder, LedgerFile.Name)};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    private sealed class Supervisor : ISystemdNotifier
    {
        private readonly Channel<string> _heard = Channel.CreateUnbounded<string>();
        private int _count;

        public bool IsEnabled => true;

        public int Count => Volatile.Read(ref _count);

        public void Notify(ServiceState state)
        {
            Interlocked.Increment(ref _count);
            Assert.True(_heard.Writer.TryWrite(state.ToString()));
        }

        public Task<string> Next() => _heard.Reader.ReadAsync().Within("a message to the supervisor");
    }
}
