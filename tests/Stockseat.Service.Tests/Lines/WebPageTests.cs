using Stockseat.Service.Clients;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Lines;

/// <summary>A page in a browser can send HTTP requests to any port, with any path and body: no line in them is executed.</summary>
public class WebPageTests
{
    private const string Push = "measured fixture=pinbed-1 diameter=95.00mm";

    public static TheoryData<string> Requests => new(Of(
        $"POST / HTTP/1.1\r\nHost: a\r\n\r\n{Push}\r\n",
        $"POST /{Long(505)} HTTP/1.1\r\nHost: a\r\n\r\n{Push}\r\n",
        $"POST /{Long(600)} HTTP/1.1\r\nHost: a\r\nContent-Type: text/plain\r\n\r\n{Push}\r\n",
        $"GET /{Long(100_000)} HTTP/1.1\r\nHost: a\r\n\r\n{Push}\r\n",
        $"POST / HTTP/1.1\r\nCookie: {Long(5000)}\r\nHost: a\r\n\r\n{Push}\r\n",
        $"GET /\r\n{Push}\r\n",
        $"GET {Push}\r\n{Push}\r\n",
        $"OPTIONS * HTTP/1.1\r\n\r\n{Push}\r\n",
        $"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n{Push}\r\n",
        $"patch /{Long(600)} HTTP/1.1\r\nHost: a\r\n\r\n{Push}\r\n",
        $"measured /fixture=pinbed-1 HTTP/1.1\r\nHost: a\r\n\r\n{Push}\r\n",
        $"Host: a\r\n{Push}\r\n",
        $"X-{Long(600)}: a\r\n{Push}\r\n"));

    public static TheoryData<string> Foreign => new(Of(
        "POST / HTTP/1.1",
        $"POST /{Long(600)} HTTP/1.1",
        "measured /fixture=pinbed-1 HTTP/1.1",
        "Host: a",
        "Content-Type:text/plain",
        $"Cookie: {Long(5000)}",
        "X-Note: \u00e9",
        "measured: fixture=pinbed-1"));

    public static TheoryData<string> BadFirstLines => new(Of(
        "",
        "\u00e9",
        Long(513),
        "{",
        "nonsense",
        "hello stray",
        "------WebKitFormBoundaryAbCdEf",
        "bye now=1",
        "locate fixture=pinbed-1 diameter=92.4",
        "measured fixture=pinbed-1 diameter=0mm"));

    private static readonly DoorLimits Limits = new();

    [Theory]
    [MemberData(nameof(Requests))]
    public async Task An_HTTP_request_gets_one_refusal_and_nothing_in_it_is_executed(string request)
    {
        await using var whole = new PipedLine(Limits);
        await whole.Send(request);
        Refused(whole);

        await using var pieces = new PipedLine(Limits);
        foreach (var piece in request.Chunk(request.Length > 10_000 ? 4096 : 1).TakeWhile(_ => !pieces.Ended.IsCompleted))
        {
            await pieces.Send(new(piece));
        }

        Refused(pieces);
    }

    [Theory]
    [MemberData(nameof(Foreign))]
    public async Task A_line_of_HTTP_ends_a_connection_wherever_it_comes(string text)
    {
        await using var line = new PipedLine(Limits);
        await line.Send($"hello\n{text}\r\n{Push}\r\n");

        Assert.StartsWith("ok stockseat line 2\n", line.Take(), StringComparison.Ordinal);
        Assert.Equal((true, 0, TurnedAway.Foreign), (line.Ended.IsCompletedSuccessfully, line.UnderWay.Count, line.Counted));
    }

    [Theory]
    [MemberData(nameof(BadFirstLines))]
    public async Task A_connection_whose_first_line_is_not_a_request_ends_with_its_refusal(string text)
    {
        await using var line = new PipedLine(Limits);
        await line.Send($"{text}\n{Push}\n");
        Refused(line);
    }

    [Theory]
    [MemberData(nameof(BadFirstLines))]
    public async Task A_later_line_that_is_not_a_request_is_refused_and_the_next_line_is_executed(string text)
    {
        await using var line = new PipedLine(Limits);
        await line.Send($"hello\n{text}\n{Push}\n");

        Assert.Single(line.UnderWay);
        Assert.False(line.Ended.IsCompleted);
    }

    private static string Long(int length) => new('a', length);

    private static string[] Of(params string[] texts) => texts;

    private static string[] Replies(PipedLine line) => line.Take().Split('\n', StringSplitOptions.RemoveEmptyEntries);

    private static void Refused(PipedLine line)
    {
        Assert.StartsWith("refused class=request reason=", Assert.Single(Replies(line)), StringComparison.Ordinal);
        Assert.True(line.Ended.IsCompletedSuccessfully);
        Assert.Empty(line.UnderWay);
        Assert.Single(line.Door.Counts);
    }
}
