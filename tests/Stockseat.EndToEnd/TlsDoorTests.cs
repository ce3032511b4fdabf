using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>What comes to a listener with TLS and never agrees on it.</summary>
public abstract class TlsDoorTests(Build build) : OnBothBuilds(build)
{
    private const string Push = "measured fixture=pinbed-1 diameter=92.40mm lot=A1077 gauge=bench-2";

    public sealed class Ordinary() : TlsDoorTests(Build.Ordinary);

    public sealed class Native() : TlsDoorTests(Build.Native);

    [Fact]
    public async Task A_thousand_half_handshakes_keep_nobody_else_out()
    {
        using var tls = new TlsCell();
        tls.Configure(s => s["Limits"] = new JsonObject { ["Handshake"] = "00:00:02" });
        await using var service = await Program.Serve(tls.Cell);
        using var good = await tls.Line(service, "bench");
        var halves = new List<Socket>();
        try
        {
            for (var i = 0; i < 1000; i++)
            {
                var half = new Socket(SocketType.Stream, ProtocolType.Tcp);
                halves.Add(half);
                half.Bind(new IPEndPoint(IPAddress.Parse("127.0.0.66"), 0));
                await Begin(half, service.LineTls!);
                if (i % 50 == 0)
                {
                    Assert.StartsWith("ok ", await good.Ask(Push), StringComparison.Ordinal);
                    using var fresh = await tls.Line(service, "lathe-4");
                    Assert.StartsWith("ok ", await fresh.Ask("locate fixture=pinbed-1 lot=A1077"), StringComparison.Ordinal);
                }
            }

            foreach (var half in halves)
            {
                Assert.Equal(0, await Ended(half).Within("the end of a half handshake"));
            }
        }
        finally
        {
            halves.ForEach(h => h.Dispose());
        }

        var list = (await tls.Ask(Program, service, "bench", "fixture", "list")).Exits(0).Out;
        var counted = Regex.Matches(list, "(handshakes?) ([0-9]+)").Sum(m => int.Parse(m.Groups[2].Value));
        Assert.Equal(1000, counted);
    }

    /// <summary>Sends the first bytes of a greeting; a connection that is one too many is cut at once.</summary>
    private static async Task Begin(Socket socket, IPEndPoint at)
    {
        try
        {
            await socket.ConnectAsync(at).Within("a connection");
            await socket.SendAsync(new byte[] { 0x16, 3, 1, 2 });
        }
        catch (SocketException)
        {
        }
    }

    private static async Task<int> Ended(Socket socket)
    {
        try
        {
            return await socket.ReceiveAsync(new byte[1]);
        }
        catch (SocketException)
        {
            return 0;
        }
    }

    [Theory]
    [InlineData("GET / HTTP/1.1\r\nHost: a\r\n\r\n", "")]
    [InlineData("hello\n", "refused class=request reason=not-permitted text=\"this port speaks TLS;")]
    public async Task Whoever_speaks_without_TLS_meets_one_clear_end(string sent, string read)
    {
        using var tls = new TlsCell();
        await using var service = await Program.Serve(tls.Cell);

        Assert.StartsWith(read, await Said(service.LineTls!, sent), StringComparison.Ordinal);
        Assert.Equal("", await Said(service.Grpc, sent));

        var list = (await tls.Ask(Program, service, "bench", "fixture", "list")).Exits(0).Out;
        Assert.Matches("(?m)^turned away since the start: foreign 2$", list);
    }

    private static async Task<string> Said(IPEndPoint at, string sent)
    {
        using var socket = new Socket(SocketType.Stream, ProtocolType.Tcp);
        await socket.ConnectAsync(at).Within("a connection");
        await socket.SendAsync(Encoding.ASCII.GetBytes(sent)).Within("the sending");
        using var reader = new StreamReader(new NetworkStream(socket));
        try
        {
            return await reader.ReadToEndAsync().Within("the end of the connection");
        }
        catch (IOException)
        {
            return ""; // It was cut.
        }
    }

    [Theory]
    [InlineData("-tls1", false)]
    [InlineData("-tls1_1", false)]
    [InlineData("-tls1_2", true)]
    [InlineData("-tls1_3", true)]
    [InlineData("-tls1_2 -cipher NULL", false)]
    [InlineData("-tls1_2 -cipher RC4", false)]
    public async Task Only_TLS_1_2_and_1_3_are_agreed_on(string how, bool agreed)
    {
        using var tls = new TlsCell();
        await using var service = await Program.Serve(tls.Cell);

        var run = await OpenSsl.Shell(Program, tls.Shop.Folder,
            $"set +e\n(echo hello; sleep 1) | timeout 20 openssl s_client -quiet -connect {service.LineTls} "
            + $"-CAfile authority.pem -verify_return_error -cert lathe-4.pem -key lathe-4.key {how} 2>&1");

        Assert.Equal(agreed, run.Out.Contains("ok stockseat line 2", StringComparison.Ordinal));
    }
}
