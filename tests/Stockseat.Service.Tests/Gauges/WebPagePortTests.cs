using Microsoft.AspNetCore.Connections;

namespace Stockseat.Service.Tests.Gauges;

/// <summary>A page in a browser can send requests to a reading port, with readings in the path and the body: none of them is used.</summary>
public class WebPagePortTests
{
    private const string Body = "\r\n\r\n86,00\r\n86,00\r\n";

    /// <summary>A STUN binding request whose user name looks like a line.</summary>
    private const string Stun = "\0\u0001\0\u0010!\u0012\u00a4BAAAAAAAAAAAA\0\u0006\0\u000f\n86,00\r\n86,00\r\n";

    public static TheoryData<string> Openings => new(new[]
    {
        "GET /\r\n86,00\r\n86,00\r\n",
        "POST / HTTP/1.1\r\nHost: a" + Body,
        "POST /" + new string('a', 600) + " HTTP/1.1\r\nHost: a" + Body,
        "HEAD / HTTP/1.1\r\n" + Body,
        "OPTIONS * HTTP/1.1\r\n" + Body,
        "PRI * HTTP/2.0\r\n\r\nSM" + Body,
        "patch / HTTP/1.1\r\n" + Body,
        "86,00 /" + " HTTP/1.1\r\n" + Body,
        "Host: a" + Body,
        "SEC-FETCH-MODE: cors" + Body,
        "Cookie: " + new string('a', 5000) + Body,
        "\u0016\u0003\u0001" + Body,
        Stun,
        "\0\u0024" + Stun,
    });

    public static TheoryData<string> Later => new(new[]
    {
        "POST / HTTP/1.1",
        "POST /" + new string('a', 300),
        "GET /86,00 HTTP/1.0",
        "Host: a",
        "user-agent: b",
        "Sec-WebSocket-Key: c",
        "Content-Disposition: form-data; name=\"86,00\"",
        "Cookie: " + new string('a', 300),
    });

    [Theory]
    [MemberData(nameof(Openings))]
    public async Task Nothing_of_a_connection_that_opens_with_another_protocol_is_used(string sent)
    {
        await using var whole = new PipedPort();
        await whole.Send(sent);
        await SentAway(whole);

        await using var pieces = new PipedPort();
        await pieces.SendEach(sent);
        await SentAway(pieces);
    }

    [Theory]
    [MemberData(nameof(Later))]
    public async Task A_line_of_HTTP_ends_a_connection_and_waiting_readings_from_it_are_not_used(string text)
    {
        await using var port = new PipedPort();
        await port.Send("86,00\r\n");
        await port.Send($"{text}\r\n86,00\r\n");

        await SentAway(port, readings: 1);
        Assert.Equal(1, port.Count("expired"));
    }

    [Theory]
    [InlineData("D: 92.40 mm")]
    [InlineData("Range: 92.40")]
    [InlineData("Date: 2026-11-25")]
    [InlineData("GETS 92.40")]
    [InlineData("PUT:92.40")]
    [InlineData("GE")]
    [InlineData("!\u0012\u00a4B")]
    public async Task A_text_that_a_gauge_may_send_is_a_line(string text)
    {
        await using var port = new PipedPort();
        await port.Send($"{text}\r\n92,40\r\n92,42\r\n");

        Assert.Equal((3, 2, 0), (port.Count("lines"), port.Count("readings"), port.Count("foreign")));
        port.Accept(0);
    }

    [Fact]
    public async Task An_HTTP_method_in_a_later_line_is_a_line()
    {
        await using var port = new PipedPort();
        await port.Send("92,40\r\nGET 92,41\r\n92,42\r\n");

        Assert.Equal((2, 0), (port.Count("readings"), port.Count("foreign")));
        port.Accept(0);
    }

    private static async Task SentAway(PipedPort port, int readings = 0)
    {
        Assert.True(port.Ended.IsCompleted, "the connection is still read");
        await Assert.ThrowsAsync<ConnectionAbortedException>(() => port.Ended.Within("the end of the connection"));
        Assert.Equal((readings, 1), (port.Count("readings"), port.Count("foreign")));
        Assert.Empty(port.Pushes);
    }
}
