using Stockseat.Service.Clients;

namespace Stockseat.Service.Tests.Clients;

/// <summary>The frames of a stranger are counted until its first call shows, and nothing else is read of them (RFC 9113, 3.4, 4.1 and 6).</summary>
public sealed class StrangersFramesTests
{
    private static readonly byte[] Preface = [.. "PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n"u8];
    private static readonly byte[] Settings = [0, 0, 6, 4, 0, 0, 0, 0, 0, 0, 3, 0, 0, 0, 100];
    private static readonly byte[] Headers = [0, 0, 2, 1, 4, 0, 0, 0, 5, 130, 132];

    [Fact]
    public void The_first_call_is_found_however_the_bytes_are_cut()
    {
        byte[] all = [.. Preface, .. Settings, .. Headers];
        var shows = Preface.Length + Settings.Length + 9;

        for (var length = 0; length <= all.Length; length++)
        {
            var (isHttp2, stream) = StrangersRequest.Look(all.AsSpan(0, length));
            Assert.Equal(length < Preface.Length ? null : (bool?)true, isHttp2);
            Assert.Equal(length < shows ? null : (int?)5, stream);
        }
    }

    [Theory]
    [InlineData("GET / HTTP/1.1\r\nHost: a\r\n\r\n")]
    [InlineData("hello\n")]
    [InlineData("PRI * HTTP/1.0\r\n\r\nSM\r\n\r\n")]
    public void Another_protocol_is_seen(string text) =>
        Assert.Equal((false, null), StrangersRequest.Look(System.Text.Encoding.ASCII.GetBytes(text)));

    [Fact]
    public void A_frame_whose_end_has_not_come_is_waited_for() =>
        Assert.Equal((true, null), StrangersRequest.Look([.. Preface, 1, 0, 0, 4, 0, 0, 0, 0, 0, 1, 1, 1]));
}
