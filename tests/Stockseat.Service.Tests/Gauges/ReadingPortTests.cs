using Stockseat.Service.Gauges;

namespace Stockseat.Service.Tests.Gauges;

public class ReadingPortTests
{
    [Fact]
    public async Task Half_a_line_at_the_end_is_not_used()
    {
        await using var port = new PipedPort();
        await port.Send("92,40\n92,4");
        port.Close();
        await port.Ended.Within("the end of the connection");

        Assert.Equal((1, 1, 1), (port.Count("lines"), port.Count("readings"), port.Count("cut-off")));
        Assert.Equal("cut-off: 92,4", port.LastCause);
        Assert.Empty(port.Pushes);
    }

    [Theory]
    [InlineData("92,40 92,41", "no-match")]
    [InlineData("OL", "no-match")]
    [InlineData("92.40", "decimal-mark")]
    [InlineData("-----", "no-number")]
    [InlineData("0,00", "not-positive")]
    [InlineData("10000,01", "too-large")]
    [InlineData("50,00", "master")]
    [InlineData("92,40\u00b5", "not-text")]
    public async Task Unusable_lines_are_counted_by_cause_and_never_pushed(string line, string cause)
    {
        await using var port = new PipedPort(PipedPort.Usual with { MasterMetres = 0.05, Readings = 1 });
        await port.Send($"{line}\n");

        Assert.Equal((1, 0, 1), (port.Count("lines"), port.Count("readings"), port.Count(cause)));
        Assert.StartsWith($"{cause}: ", port.LastCause, StringComparison.Ordinal);
        Assert.Empty(port.Pushes);
    }

    [Fact]
    public async Task In_a_flood_only_twenty_lines_a_second_are_read()
    {
        await using var port = new PipedPort(PipedPort.Usual with { Pattern = LinePattern.Parse("x(?<reading>[0-9])", out _)! });
        for (var i = 0; i < 10_000; i++)
        {
            await port.Send("92,40\r\n");
        }

        Assert.Equal((10_000, ReadingPort.LinesPerSecond, 10_000 - ReadingPort.LinesPerSecond),
            (port.Count("lines"), port.Count("no-match"), port.Count("too-fast")));
        port.Time.Advance(TimeSpan.FromMilliseconds(100));
        await port.Send("92,40\r\n92,40\r\n92,40\r\n");
        Assert.Equal(ReadingPort.LinesPerSecond + 2, port.Count("no-match"));
    }

    [Fact]
    public async Task After_a_match_that_took_too_long_no_line_is_read_for_a_second()
    {
        await using var port = new PipedPort(
            PipedPort.Usual with { Readings = 1, Pattern = LinePattern.Parse("(?=(?:[0-9]|[0-9][0-9])+$)(?<reading>[0-9!]+)", out _)! });
        await port.Send(new string('1', 200) + "!\n");
        await port.Send("92\n92\n");
        Assert.Equal((1, 2, 0), (port.Count("pattern-timeout"), port.Count("passed-over"), port.Count("readings")));

        port.Time.Advance(ReadingPort.Pause);
        await port.Send("92\n");
        Assert.Equal((2, 1), (port.Count("passed-over"), port.Count("readings")));
        port.Accept(0);
    }

    [Fact]
    public async Task One_unused_line_a_minute_is_logged_with_the_count_of_the_others_and_can_forge_nothing()
    {
        await using var port = new PipedPort();
        await port.Send("x\u001b[2K{\"@l\":\"Error\"}\u0085=\n");
        await port.Send("y\ny\ny\n");
        port.Time.Advance(TimeSpan.FromMinutes(1));
        await port.Send("z\n");

        Assert.Equal(2, port.Logged.Count);
        Assert.Contains("x?[2K{", port.Logged[0], StringComparison.Ordinal);
        Assert.Contains("not-text", port.Logged[0], StringComparison.Ordinal);
        Assert.EndsWith("; 3 similar ones before it were not logged", port.Logged[1], StringComparison.Ordinal);
        Assert.All(port.Logged, l => Assert.DoesNotContain(l, c => char.IsControl(c) || c == '='));
    }

    [Fact]
    public async Task Bytes_left_in_a_stopped_connection_are_not_used()
    {
        await using var port = new PipedPort();
        await port.Send("92,4");
        port.Stop();
        await port.Send("0\n");

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => port.Ended.Within("the end of the connection"));
        Assert.Equal((0, 1), (port.Count("lines"), port.Count("cut-off")));
    }
}
