using Microsoft.AspNetCore.Connections;
using Stockseat.Service.Clients;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Lines;

/// <summary>Every wait for the other side has an end.</summary>
public class DeadlineTests
{
    private static readonly DoorLimits Limits = new();
    private static readonly TimeSpan Second = TimeSpan.FromSeconds(1);

    [Fact]
    public async Task A_client_that_connects_and_sends_nothing_is_disconnected_without_a_reply()
    {
        await using var line = new PipedLine(Limits);

        line.Pass(Limits.FirstLine - Second);
        Assert.False(line.Ended.IsCompleted);
        line.Pass(Second);
        await line.Ended.Within("the end of the connection");

        Assert.Equal("", line.Take());
        Assert.Equal(TurnedAway.FirstLine, line.Counted);
    }

    [Fact]
    public async Task One_byte_a_second_does_not_keep_a_line_open()
    {
        await using var line = new PipedLine(Limits);
        var sent = 0;
        while (!line.Ended.IsCompleted)
        {
            Assert.True(sent++ < 60, "a line that never ends keeps its connection open");
            await line.Send("x");
            line.Pass(Second);
        }

        await line.Ended.Within("the end of the connection");
        Assert.Equal(Limits.Line.TotalSeconds, sent);
        Assert.StartsWith("refused class=request reason=request-malformed text=\"the line was not ended in time (10 s); the connection closes", line.Take(),
            StringComparison.Ordinal);
        Assert.Equal(TurnedAway.Line, line.Counted);
    }

    [Fact]
    public async Task The_end_of_a_line_in_time_gives_the_next_line_the_full_time()
    {
        await using var line = new PipedLine(Limits);
        for (var i = 0; i < 5; i++)
        {
            await line.Send("hel");
            line.Pass(Limits.Line - Second);
            await line.Send("lo\n");
            Assert.Equal("ok stockseat line 2\n", line.Take());
        }

        Assert.False(line.Ended.IsCompleted);
        Assert.Null(line.Counted);
    }

    [Fact]
    public async Task An_idle_connection_is_closed_without_anything_that_could_look_like_a_reply()
    {
        await using var line = new PipedLine(Limits);
        await line.Send("hello\n");
        line.Take();

        line.Pass(Limits.Idle - Second);
        Assert.False(line.Ended.IsCompleted);
        line.Pass(Second);
        await line.Ended.Within("the end of the connection");

        Assert.Equal("", line.Take());
        Assert.Equal(TurnedAway.Idle, line.Counted);
    }

    [Fact]
    public async Task A_client_s_deadline_does_not_run_while_the_ledger_is_awaited()
    {
        await using var line = new PipedLine(Limits);
        await line.Send("locate fixture=pinbed-1 diameter=92.40mm tag=1\n");

        line.Pass(Limits.Idle * 2);
        Assert.False(line.Ended.IsCompleted);
        line.End(0);

        Assert.StartsWith("refused tag=1 ", line.Take(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_client_that_does_not_read_its_replies_is_disconnected()
    {
        await using var line = new PipedLine(Limits);
        for (var i = 0; i < 3; i++)
        {
            await line.Send("help\n");
        }

        line.Pass(Limits.Reply - Second);
        Assert.False(line.Aborted);
        line.Pass(Second);

        await Assert.ThrowsAsync<ConnectionAbortedException>(() => line.Ended.Within("the end of the connection"));
        Assert.True(line.Aborted);
        Assert.Equal(TurnedAway.Reply, line.Counted);
    }

    [Fact]
    public async Task A_client_that_reads_its_replies_in_time_is_not_disconnected()
    {
        await using var line = new PipedLine(Limits);
        for (var i = 0; i < 20; i++)
        {
            await line.Send("help\n");
            line.Pass(Limits.Reply - Second);
            Assert.NotEmpty(line.Take());
        }

        Assert.False(line.Aborted);
        Assert.Null(line.Counted);
    }

    [Fact]
    public async Task An_endless_line_is_refused_once_and_closed_before_it_uses_memory()
    {
        await using var line = new PipedLine(Limits);
        var chunk = new string('x', 4096);
        var sent = 0;
        while (!line.Ended.IsCompleted)
        {
            Assert.True((sent += chunk.Length) < 1_000_000, "an endless line is read endlessly");
            await line.Send(chunk);
        }

        Assert.StartsWith("refused class=request reason=request-too-long ", Assert.Single(line.Take().Split('\n', StringSplitOptions.RemoveEmptyEntries)),
            StringComparison.Ordinal);
        Assert.Equal(TurnedAway.TooLong, line.Counted);
    }

    [Fact]
    public async Task A_line_that_has_arrived_when_the_deadline_passes_is_answered()
    {
        await using var line = new PipedLine(Limits);
        line.Time.Advance(Limits.FirstLine);

        await line.Send("hello\n");
        line.Pass(TimeSpan.Zero);

        Assert.Equal("ok stockseat line 2\n", line.Take());
        Assert.False(line.Ended.IsCompleted);
    }

    [Fact]
    public async Task A_client_that_asks_too_often_is_refused_and_continues()
    {
        await using var line = new PipedLine(Limits, Bench.Client with { Rate = 2 });

        await line.Send("hello\nhello\nhello tag=3\n");

        var replies = line.Take().Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(["ok stockseat line 2", "ok stockseat line 2"], replies[..2]);
        Assert.StartsWith("refused tag=3 class=service reason=too-busy text=\"client bench sends more than 2 requests a second", replies[2],
            StringComparison.Ordinal);
        Assert.Equal(TurnedAway.Rate, line.Counted);
    }
}
