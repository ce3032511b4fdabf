using System.Net.Sockets;
using System.Text;
using CsCheck;
using Stockseat.Ledger.Reading;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Fuzz;

/// <summary>Whatever arrives at the port of the pages is answered or refused, never fails, and writes nothing.</summary>
public class PageFuzzTests
{
    private static readonly int Requests = Environment.GetEnvironmentVariable("STOCKSEAT_LONG") == "1" ? 100_000 : 2000;

    private static readonly string[] Words =
    [
        "", "/", "hold", "pinbed-1", "release", "1", "files", "style.css", "..", "%2e%2e", "%00", "%", "%zz", "\u00e9", "a\tb", "?", "?entry=1", "?entry=-1",
        "?refresh=reload", "?entry=99999999999999999999", "#", "<script>", "'", "127.0.0.1", "evil.example", "null", "same-origin",
        "cross-site", "navigate",
        "application/x-www-form-urlencoded", "multipart/form-data; boundary=x", "form=1.page-1.x&by=x&why=y", "form=a&form=b", "by=%ff&why=%u0041", "&&==&",
        "0", "-1", "99999999999", "chunked", "gzip", new('a', 300), new('/', 200), new('a', 9000),
    ];

    private static readonly string[] Names =
    [
        "Host", "Origin", "Referer", "Sec-Fetch-Site", "Sec-Fetch-Mode", "Sec-Fetch-Dest", "Content-Type", "Content-Length", "Transfer-Encoding", "Expect",
        "Upgrade", "Cookie", "Accept", "X-Forwarded-For", "X-HTTP-Method-Override", "a b", "",
    ];

    private static readonly Gen<string> Word = Gen.Frequency((6, Of(Words)), (1, Gen.Char[' ', '~'].Array[0, 40].Select(c => new string(c))));

    private static readonly string[] Pages =
    [
        "/", "/hold/pinbed-1", "/release/pinbed-1/1", "/files/board.js", "/measure/pinbed-1/check?reading1=92&unit=mm", "/lots/check?lot=B9", "/ledger?kind=x",
        "/review?at=1", "/fixture/pinbed-1?diameter=1mm", "/note", "/done/1", "/adopt/pinbed-1/3", "/handover", "/emptied/pinbed-1",
    ];

    private static readonly Gen<string> Path = Gen.Frequency((2, Of(Pages)), (2, Word.Array[1, 4].Select(w => "/" + string.Join('/', w))), (1, Word));

    private static readonly Gen<string> Request = Gen.Select(
        Of("GET", "POST", "POST", "HEAD", "PUT", "OPTIONS", "TRACE", "get", "PRI", ""), Path, Of("HTTP/1.1", "HTTP/1.1", "HTTP/1.1", "HTTP/1.0", "HTTP/9", ""),
        Gen.Select(Of(Names), Word).Array[0, 5], Gen.Bool, Word,
        (method, path, version, fields, whole, body) =>
        {
            var host = whole ? $"Host: 127.0.0.1\r\nContent-Length: {Encoding.UTF8.GetByteCount(body)}\r\n" : "";
            return $"{method} {path} {version}\r\n{host}{string.Concat(fields.Select(f => $"{f.Item1}: {f.Item2}\r\n"))}\r\n{body}";
        });

    [Fact]
    public async Task Every_request_is_answered_or_refused_and_nothing_is_written()
    {
        await using var bench = await Bench.Start();
        var before = Last(bench);
        var seen = new Dictionary<string, int>();

        await Request.SampleAsync(
            async request =>
            {
                var status = await Send(bench, request);
                Assert.False(status.StartsWith('5') && status != "505", $"{status} to {request}");
                seen[status] = seen.GetValueOrDefault(status) + 1;
            },
            iter: Requests, threads: 1);

        // A fuzzer whose requests are all refused at once finds nothing.
        Assert.All(["200", "400", "403", "404", "405"], status => Assert.True(seen.ContainsKey(status), string.Join(", ", seen)));
        Assert.Equal(before, Last(bench));
        using var page = new PageClient(bench.Service.Page!);
        Assert.Contains("All 3 fixtures wait for a measurement", await page.Page("/"), StringComparison.Ordinal);
    }

    /// <summary>Sends a request; the status of the reply, or "" when there was none.</summary>
    private static async Task<string> Send(Bench bench, string request)
    {
        using var client = new TcpClient();
        await client.ConnectAsync(bench.Service.Page!).Within("a connection");
        var stream = client.GetStream();
        try
        {
            await stream.WriteAsync(Encoding.UTF8.GetBytes(request)).AsTask().Within("the sending");
            using var late = new CancellationTokenSource(TimeSpan.FromMilliseconds(300));
            var bytes = new byte[64];
            var count = await stream.ReadAsync(bytes, late.Token);
            return Encoding.ASCII.GetString(bytes, 0, count).Split(' ') is [_, var status, ..] ? status : "";
        }
        catch (Exception e) when (e is IOException or SocketException or OperationCanceledException)
        {
            return ""; // It was cut off while it was sending, or more of the request is waited for.
        }
    }

    private static long Last(Bench bench)
    {
        using var reader = LedgerReader.Open(System.IO.Path.Combine(bench.Folder, "data"));
        return reader.Last;
    }

    private static Gen<T> Of<T>(params T[] all) => Gen.Int[0, all.Length - 1].Select(i => all[i]);
}
