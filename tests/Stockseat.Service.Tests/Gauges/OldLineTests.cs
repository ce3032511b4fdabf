using Stockseat.Service.Gauges;

namespace Stockseat.Service.Tests.Gauges;

/// <summary>Lines that waited in a converter or a buffer may be old: they are counted, and no measurement uses them.</summary>
public class OldLineTests
{
    private static readonly TimeSpan Tick = TimeSpan.FromTicks(1);
    private static readonly TimeSpan Settle = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan Apart = TimeSpan.FromMilliseconds(200);

    private static ReadingPortSettings Settling => PipedPort.Usual with { Settle = Settle };

    private static ReadingPortSettings Spaced => PipedPort.Usual with { Apart = Apart };

    [Fact]
    public async Task Lines_of_the_first_moments_after_connecting_are_not_used()
    {
        await using var port = new PipedPort(Settling);
        await port.Send("86,00\n");
        port.Time.Advance(Settle - Tick);
        await port.Send("86,00\nOL\n");
        Assert.Equal((3, 3), (port.Count("lines"), port.Count("settling")));

        port.Time.Advance(Tick);
        await port.Send("92,40\n92,42\n");
        Assert.Equal([0.0924, 0.09242], Assert.Single(port.Pushes).Ask.ReadingsMetres);
        Assert.Equal((5, 3, 2), (port.Count("lines"), port.Count("settling"), port.Count("readings")));
        port.Accept(0);
    }

    [Fact]
    public async Task A_line_that_began_in_the_first_moments_is_not_used_even_when_it_ends_later()
    {
        await using var port = new PipedPort(Settling with { Readings = 1 });
        await port.Send("\r\n 1");
        port.Time.Advance(Settle);
        await port.Send("92,40\n");
        Assert.Equal((1, 0), (port.Count("settling"), port.Count("readings")));

        await port.Send("92,40\n");
        Assert.Equal((1, 1), (port.Count("settling"), port.Count("readings")));
        port.Accept(0);
    }

    [Fact]
    public async Task White_space_does_not_begin_a_line()
    {
        await using var port = new PipedPort(Settling with { Readings = 1 });
        await port.Send("\r\n \t");
        port.Time.Advance(Settle);
        await port.Send("92,40\n");

        Assert.Equal((0, 1), (port.Count("settling"), port.Count("readings")));
        port.Accept(0);
    }

    [Fact]
    public async Task Each_connection_settles_again_and_waiting_readings_of_the_previous_one_are_not_combined()
    {
        await using var port = new PipedPort(Settling);
        port.Time.Advance(Settle);
        await port.Send("92,40\n");
        await port.Reconnect();
        await port.Send("86,00\n");
        port.Time.Advance(Settle);
        await port.Send("92,42\n");
        Assert.Equal((1, 1, 0), (port.Count("settling"), port.Count("expired"), port.Pushes.Count));

        await port.Send("92,44\n");
        Assert.Equal([0.09242, 0.09244], Assert.Single(port.Pushes).Ask.ReadingsMetres);
        port.Accept(0);
    }

    [Fact]
    public async Task A_reading_is_used_when_nothing_followed_it()
    {
        await using var port = new PipedPort(Spaced with { Readings = 1 });
        await port.Send("92,40\r\n");
        port.Time.Advance(Apart - Tick);
        Assert.Equal((0, 0), (port.Count("readings"), port.Pushes.Count));

        port.Time.Advance(Tick);
        Assert.Equal([0.0924], Assert.Single(port.Pushes).Ask.ReadingsMetres);
        Assert.Equal((1, 1, 0), (port.Count("lines"), port.Count("readings"), port.Count("burst")));
        port.Accept(0);
    }

    [Fact]
    public async Task Lines_at_least_as_far_apart_as_stated_are_used()
    {
        await using var port = new PipedPort(Spaced);
        await port.Send("92,40\r\n");
        port.Time.Advance(Apart);
        await port.Send("92,42\r\n");
        port.Time.Advance(Apart);

        Assert.Equal([0.0924, 0.09242], Assert.Single(port.Pushes).Ask.ReadingsMetres);
        port.Accept(0);
    }

    [Theory]
    [InlineData("86,00\n86,00\n86,00\n", 3)]
    [InlineData("86,00\nOL\n", 2)] // whatever the other line contains
    [InlineData("OL\n86,00\n", 1)]
    [InlineData("86,00\nx\u00b5\n", 2)]
    public async Task A_burst_is_not_used_including_its_first_line(string lines, int burst)
    {
        await using var port = new PipedPort(Spaced with { Readings = 1 });
        await port.Send(lines);
        port.Time.Advance(Apart * 3);

        Assert.Equal((burst, 0, 0), (port.Count("burst"), port.Count("readings"), port.Pushes.Count));
        Assert.Equal(lines.Count(c => c == '\n'), port.Count("lines"));
    }

    [Fact]
    public async Task A_burst_lasts_until_there_was_a_pause()
    {
        await using var port = new PipedPort(Spaced with { Readings = 1 });
        for (var i = 0; i < 5; i++)
        {
            await port.Send("86,00\n");
            port.Time.Advance(Apart - Tick);
        }

        port.Time.Advance(Tick);
        await port.Send("92,40\n");
        port.Time.Advance(Apart);
        Assert.Equal([0.0924], Assert.Single(port.Pushes).Ask.ReadingsMetres);
        Assert.Equal((5, 1), (port.Count("burst"), port.Count("readings")));
        port.Accept(0);
    }

    /// <summary>Long lines at a slow rate end far apart, although there is no pause between them.</summary>
    [Fact]
    public async Task A_line_that_begins_right_behind_another_belongs_to_the_burst_however_late_it_ends()
    {
        await using var port = new PipedPort(Spaced with { Readings = 1 });
        await port.Send("86,00\n8");
        port.Time.Advance(Apart * 2);
        Assert.Equal((0, 1), (port.Count("readings"), port.Count("burst")));

        await port.Send("6,00\n");
        port.Time.Advance(Apart);
        Assert.Equal((0, 2), (port.Count("readings"), port.Count("burst")));
    }

    [Fact]
    public async Task Readings_from_before_a_burst_are_not_combined_with_readings_from_after_it()
    {
        await using var port = new PipedPort(Spaced);
        await port.Send("92,40\n");
        port.Time.Advance(Apart);
        await port.Send("86,00\n86,00\n");
        port.Time.Advance(Apart);
        await port.Send("92,42\n");
        port.Time.Advance(Apart);
        Assert.Equal((2, 1, 0), (port.Count("burst"), port.Count("expired"), port.Pushes.Count));

        await port.Send("92,44\n");
        port.Time.Advance(Apart);
        Assert.Equal([0.09242, 0.09244], Assert.Single(port.Pushes).Ask.ReadingsMetres);
        port.Accept(0);
    }

    [Fact]
    public async Task A_reading_that_is_held_back_when_the_gauge_connects_again_is_not_used()
    {
        await using var port = new PipedPort(Spaced with { Readings = 1 });
        await port.Send("92,40\n");
        await port.Reconnect();
        await port.Send("OL\n");
        port.Time.Advance(Apart);

        Assert.Equal((0, 1, 1), (port.Count("readings"), port.Count("expired"), port.Count("no-match")));
    }

    [Fact]
    public async Task A_reading_of_a_gauge_that_only_disconnects_is_used()
    {
        await using var port = new PipedPort(Spaced with { Readings = 1 });
        await port.Send("92,40\n");
        port.Close();
        await port.Ended.Within("the end of the connection");
        port.Time.Advance(Apart);

        Assert.Single(port.Pushes);
        port.Accept(0);
    }

    /// <summary>Within counts from the line of the first reading to the line of the last, not from when they were passed on.</summary>
    [Fact]
    public async Task A_reading_that_was_held_back_has_the_time_of_its_line()
    {
        await using var port = new PipedPort(Spaced);
        await port.Send("92,40\n");
        port.Time.Advance(port.Port.Configured.Within);
        await port.Send("92,42\n");
        port.Time.Advance(Apart);
        Assert.Equal((1, 0), (port.Pushes.Count, port.Count("expired")));
        port.Accept(0);

        await port.Send("92,44\n");
        port.Time.Advance(port.Port.Configured.Within + Tick);
        await port.Send("92,46\n");
        port.Time.Advance(Apart);
        Assert.Equal((1, 1), (port.Pushes.Count, port.Count("expired")));
    }

    [Fact]
    public async Task A_reading_that_is_held_back_at_a_stop_is_not_used()
    {
        await using var port = new PipedPort(Spaced with { Readings = 1 });
        await port.Send("92,40\n");
        port.Stop();
        port.Time.Advance(Apart);

        Assert.Equal((0, 0), (port.Count("readings"), port.Pushes.Count));
    }

    /// <summary>The end of a line may look like a line of its own: with the digits stated in the pattern it does not match.</summary>
    [Theory]
    [InlineData("2,40")]
    [InlineData(",40")]
    [InlineData("40")]
    public async Task A_line_that_was_cut_does_not_match_a_pattern_that_states_its_digits(string rest)
    {
        await using var port = new PipedPort(
            PipedPort.Usual with { Readings = 1, Pattern = Service.Gauges.LinePattern.Parse("(?<reading>[0-9]{2},[0-9]{2})", out _)! });
        await port.Send($"{rest}\n");

        Assert.Equal((1, 0), (port.Count("no-match"), port.Count("readings")));
    }
}
