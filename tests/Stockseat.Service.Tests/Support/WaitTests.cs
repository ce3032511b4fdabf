using System.Net;
using System.Net.Sockets;
using System.Text.RegularExpressions;
using Grpc.Core;
using Microsoft.Extensions.Time.Testing;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Support;

/// <summary>Every kind of wait in these tests has an end, and says what it waited for.</summary>
public sealed partial class WaitTests
{
    private static readonly TimeSpan Moment = TimeSpan.FromMilliseconds(1);

    /// <summary>Each kind of wait has a replacement that ends and says what it waited for: Within, Ends, LimitedChannel.</summary>
    [Fact]
    public void No_test_waits_in_any_other_way()
    {
        string[] programs = ["Stockseat.Load", "Stockseat.Benchmarks", "Support", "node"];
        var waits = Directory.EnumerateFiles(Path.Combine(Repository.Root, "tests"), "*.cs", SearchOption.AllDirectories)
            .Select(f => Path.GetRelativePath(Path.Combine(Repository.Root, "tests"), f))
            .Where(f => !programs.Contains(f.Split(Path.DirectorySeparatorChar)[0]) && !f.Split(Path.DirectorySeparatorChar).Contains("obj"))
            .SelectMany(f => File.ReadLines(Path.Combine(Repository.Root, "tests", f)).Where(l => Unnamed().IsMatch(l)).Select(l => $"{f}: {l.Trim()}"));

        Assert.Empty(waits);
    }

    [Fact]
    public async Task A_wait_that_never_ends_fails_with_its_name()
    {
        var never = new TaskCompletionSource<int>();

        foreach (var wait in (Func<Task>[])
        [
            () => never.Task.Within("the bus", Moment), () => ((Task)never.Task).Within("the bus", Moment),
            () => new ValueTask(never.Task).Within("the bus", Moment), () => new ValueTask<int>(never.Task).Within("the bus", Moment),
        ])
        {
            Assert.Equal("the bus did not happen within 0.001 s", (await Assert.ThrowsAsync<TimeoutException>(wait)).Message);
        }
    }

    [Fact]
    public async Task A_wait_that_ends_gives_its_result_or_its_own_failure()
    {
        Assert.Equal(7, await Task.FromResult(7).Within("a number"));
        var failure = await Assert.ThrowsAsync<TimeoutException>(() => Task.FromException(new TimeoutException("of its own")).Within("a failure"));
        Assert.Equal("of its own", failure.Message);
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => Task.FromCanceled(new(canceled: true)).Within("a call"));
    }

    [Fact]
    public async Task A_condition_that_never_comes_true_fails_with_its_name_and_its_state()
    {
        var looks = 0;
        var failure = await Assert.ThrowsAsync<TimeoutException>(() => Deadline.Until(() => looks++ < 0, "the tide", more: () => "low", limit: Moment));
        Assert.Equal("the tide (low) did not happen within 0.001 s", failure.Message);
        Assert.True(looks > 0);

        looks = 0;
        await Deadline.Until(() => looks++ == 3, "the third look");
        Assert.Equal(4, looks);
    }

    [Fact]
    public async Task A_callback_that_blocks_the_clock_fails_the_test_that_set_the_clock()
    {
        var time = new FakeTimeProvider();
        using var gate = new ManualResetEventSlim();
        await using var timer = time.CreateTimer(_ => gate.Wait(), null, TimeSpan.FromSeconds(1), Timeout.InfiniteTimeSpan);

        var failure = await Assert.ThrowsAsync<TimeoutException>(() => time.Pass(TimeSpan.FromSeconds(1), Moment));

        Assert.Contains("everything that waited for the clock, moved on by 1 s,", failure.Message, StringComparison.Ordinal);
        gate.Set();
    }

    [Fact]
    public async Task When_no_test_begins_or_ends_any_more_the_running_tests_are_named()
    {
        var said = new TaskCompletionSource<string>(TaskCreationOptions.RunContinuationsAsynchronously);
        var watch = new HungWatch(Moment, said.SetResult);
        watch.Begins("one");
        watch.Begins("two");
        watch.Ends("one");
        watch.Start();

        Assert.Equal(
            "HUNG: no test has begun or ended for 0.000017 min. Running: two. The last that ended: one.", await said.Task.Within("the message of the watch"));
    }

    [Fact]
    public async Task A_call_without_a_reply_fails_with_its_method()
    {
        using var silent = new TcpListener(IPAddress.Loopback, 0);
        silent.Start();
        using var channel = LimitedChannel.For((IPEndPoint)silent.LocalEndpoint, limit: Moment);
        var (gauge, ledger) = (new GaugeService.GaugeServiceClient(channel), new LedgerService.LedgerServiceClient(channel));
        using var watch = ledger.Watch(new());
        using var push = gauge.RecordReadings();
        var more = new RecordReadingsRequest { Fixture = new('x', 1_000_000) }; // More than HTTP/2 lets anybody send before the other side answers.

        foreach (var (method, call) in ((string, Task)[])
        [
            ("Emptied", gauge.EmptiedAsync(new()).ResponseAsync), ("Watch", watch.ResponseStream.MoveNext(CancellationToken.None)),
            ("RecordReadings", push.RequestStream.WriteAsync(more)), ("RecordReadings", push.ResponseAsync),
        ])
        {
            Assert.Contains($"{method} did not happen within", (await Assert.ThrowsAsync<TimeoutException>(() => call)).Message, StringComparison.Ordinal);
        }
    }

    [GeneratedRegex(@"\.WaitAsync\((Time|Limit|Deadline|Patience)|WaitFor[E]xit|GrpcChannel\.For|[(]Timeout = ")]
    private static partial Regex Unnamed();
}
