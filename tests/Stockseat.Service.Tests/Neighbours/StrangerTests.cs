using System.Net.Sockets;
using System.Text;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Neighbours;

/// <summary>Other protocols, and clients that disconnect without a word, beside a good client.</summary>
public class StrangerTests
{
    private static readonly byte[] Preface = "PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n\0\0\0\x4\0\0\0\0\0"u8.ToArray();

    /// <summary>The record header, then the handshake header: client_hello, TLS 1.2, its random bytes.</summary>
    private static readonly byte[] TlsHello = [0x16, 0x03, 0x01, 0x00, 0xc8, 0x01, 0x00, 0x00, 0xc4, 0x03, 0x03, .. Enumerable.Repeat((byte)0x5a, 194)];

    /// <summary>A length-prefixed message: not compressed, 10 bytes, field 1 is "pinbed-1".</summary>
    private static readonly byte[] GrpcFrame = [0, 0, 0, 0, 10, 0x0a, 8, .. "pinbed-1"u8];

    public static TheoryData<string> Strangers => ["http", "tls", "preface", "grpc"];

    [Theory]
    [MemberData(nameof(Strangers))]
    public async Task Another_protocol_on_the_line_port_gets_one_refusal_and_is_closed(string what)
    {
        await using var hood = await Neighbourhood.Start();
        var bytes = what switch
        {
            "http" => "GET /metrics HTTP/1.1\r\nHost: a\r\nConnection: keep-alive\r\n\r\n"u8.ToArray(),
            "tls" => TlsHello,
            "preface" => Preface,
            _ => GrpcFrame,
        };
        var outcomes = new List<IReadOnlyList<string>?>();

        await hood.GoodIsServedWhile(async stop =>
        {
            do
            {
                outcomes.Add(await Outcome.Of(hood, bytes));
            }
            while (!stop.IsCancellationRequested);
        });

        // Bytes that nobody read make the system reset the connection, and the refusal may be lost with it.
        Assert.All(outcomes.OfType<IReadOnlyList<string>>().SelectMany(o => o),
            l => Assert.StartsWith("refused class=request reason=request-malformed text=\"", l, StringComparison.Ordinal));
        Assert.All(outcomes, o => Assert.True(o is null or [_], $"{o?.Count} replies"));
        Assert.Contains(outcomes, o => o is [_]);
        Assert.Equal(outcomes.Count, await hood.TurnedAway());
    }

    [Fact]
    public async Task Noise_on_both_ports()
    {
        await using var hood = await Neighbourhood.Start();
        var random = new Random(20261125);
        var (count, told) = (0, 0);

        await hood.GoodIsServedWhile(async stop =>
        {
            do
            {
                var bytes = new byte[random.Next(1, 5000)];
                random.NextBytes(bytes);
                var replies = await Outcome.Of(hood, bytes);
                told += replies?.Count ?? 0;
                Assert.All(replies ?? [], r => Assert.StartsWith("refused class=request reason=", r, StringComparison.Ordinal));
                await Outcome.Of(hood.Bench.Service.Grpc, bytes);
                count++;
            }
            while (!stop.IsCancellationRequested);
        });

        Assert.True(told > 0, $"none of {count} connections got a reply");
    }

    [Fact]
    public async Task Lines_and_HTTP_1_on_the_grpc_port()
    {
        await using var hood = await Neighbourhood.Start();
        byte[][] all = [Encoding.ASCII.GetBytes(string.Concat(Enumerable.Repeat("locate fixture=pinbed-1 diameter=92.4mm\n", 50))), "hello\n"u8.ToArray(),
            "GET / HTTP/1.1\r\nHost: a\r\n\r\n"u8.ToArray(), TlsHello];
        var served = new List<string>();

        await hood.GoodIsServedWhile(async stop =>
        {
            do
            {
                foreach (var bytes in all)
                {
                    served.AddRange(await Outcome.Of(hood.Bench.Service.Grpc, bytes) ?? []);
                }
            }
            while (!stop.IsCancellationRequested);
        });

        Assert.DoesNotContain(served, r => r.StartsWith("ok", StringComparison.Ordinal) || r.StartsWith("HTTP/1.1 200", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("")]
    [InlineData("locate fixture=pinbed-1 dia")]
    [InlineData("locate fixture=pinbed-1 diameter=92.4mm\nhelp\nlocate fixture=pinbed-1 diameter=92.4mm\n")]
    public async Task Clients_that_connect_and_disconnect(string before)
    {
        await using var hood = await Neighbourhood.Start();
        var (gone, bytes) = (0, Encoding.ASCII.GetBytes(before));

        // A reset says no more than a pulled cable; half of the clients close properly.
        await hood.GoodIsServedWhile([.. Enumerable.Range(0, 4).Select(i => (Func<CancellationToken, Task>)(async stop =>
        {
            do
            {
                using var socket = Outcome.Bound();
                await socket.ConnectAsync(hood.Bench.Service.Line, CancellationToken.None);
                await socket.SendAsync(bytes, CancellationToken.None);
                if (i % 2 == 0)
                {
                    socket.LingerState = new LingerOption(enable: true, seconds: 0);
                }

                socket.Close();
                Interlocked.Increment(ref gone);
            }
            while (!stop.IsCancellationRequested);
        }))]);

        Assert.True(gone >= 4);
        await hood.BadIsLetInAgain();
    }

    [Fact]
    public async Task Clients_that_reset_in_the_middle_of_the_reply()
    {
        await using var hood = await Neighbourhood.Start();
        var resets = 0;

        await hood.GoodIsServedWhile(async stop =>
        {
            do
            {
                using var socket = Outcome.Bound();
                await socket.ConnectAsync(hood.Bench.Service.Line, CancellationToken.None);
                await socket.SendAsync(Encoding.ASCII.GetBytes(string.Concat(Enumerable.Repeat("help\n", 200))), CancellationToken.None);
                Assert.Equal(10, await socket.ReceiveAsync(new byte[10], CancellationToken.None));
                socket.LingerState = new LingerOption(enable: true, seconds: 0);
                socket.Close();
                resets++;
            }
            while (!stop.IsCancellationRequested);
        });

        Assert.NotEqual(0, resets);
    }
}
