using System.Buffers.Binary;
using System.Net;
using System.Net.Sockets;
using System.Text;

namespace Stockseat.Tests.Support.Plants;

/// <summary>
/// Stands between a client and PostgreSQL and passes whole messages of its protocol on, so that a test can do something at one of them: kill the server, lose a
/// reply, cut the link.
/// </summary>
internal sealed class PlantProxy : IAsyncDisposable
{
    private const int Startup = 196608;

    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly CancellationTokenSource _end = new();
    private readonly string _socket;
    private readonly Task _accepting;
    private readonly List<Task> _links = [];
    private int _connections;

    /// <param name="socket">The server's socket.</param>
    public PlantProxy(string socket)
    {
        _socket = socket;
        _listener.Start();
        _accepting = Accept();
    }

    /// <summary>What is done at a message; <c>pass</c> passes it on, and an exception cuts the link.</summary>
    public delegate Task Hook(Message message, Func<Task> pass);

    /// <summary>At each message of the client.</summary>
    public Hook? Sent { get; set; }

    /// <summary>At each message of the server.</summary>
    public Hook? Replied { get; set; }

    public int Port => ((IPEndPoint)_listener.LocalEndpoint).Port;

    /// <summary>How many connections came.</summary>
    public int Connections => Volatile.Read(ref _connections);

    /// <summary>Cuts the link: nothing more is passed on in either direction.</summary>
    public static Exception Cut() => new IOException("the link is cut");

    public async ValueTask DisposeAsync()
    {
        await _end.CancelAsync();
        _listener.Stop();
        await ((Task)_accepting).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        await Task.WhenAll(_links).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        _end.Dispose();
    }

    private async Task Accept()
    {
        while (true)
        {
            var client = await _listener.AcceptSocketAsync(_end.Token);
            Interlocked.Increment(ref _connections);
            _links.Add(Link(client));
        }
    }

    private async Task Link(Socket client)
    {
        using var server = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        using (client)
        {
            try
            {
                client.NoDelay = true;
                await server.ConnectAsync(new UnixDomainSocketEndPoint(_socket), _end.Token);
                using var cut = CancellationTokenSource.CreateLinkedTokenSource(_end.Token);
                var (up, down) = (
                    Pump(client, server, untyped: true, (m, pass) => Sent is { } hook ? hook(m, pass) : pass(), cut.Token),
                    Pump(server, client, untyped: false, (m, pass) => Replied is { } hook ? hook(m, pass) : pass(), cut.Token));
                await Task.WhenAny(up, down);
                await cut.CancelAsync();
            }
            catch (Exception e) when (e is SocketException or OperationCanceledException)
            {
                // The server is down: the client sees a closed connection.
            }
        }
    }

    private static async Task Pump(Socket from, Socket to, bool untyped, Hook hook, CancellationToken token)
    {
        await using var source = new NetworkStream(from, ownsSocket: false);
        await using var target = new NetworkStream(to, ownsSocket: false);
        while (true)
        {
            var head = new byte[untyped ? 4 : 5];
            await source.ReadExactlyAsync(head, token);
            var body = new byte[BinaryPrimitives.ReadInt32BigEndian(head.AsSpan(head.Length - 4)) - 4];
            await source.ReadExactlyAsync(body, token);
            var type = untyped ? '\0' : (char)head[0];
            untyped = untyped && BinaryPrimitives.ReadInt32BigEndian(body) != Startup;
            await hook(new(type, body, from.Close), async () =>
            {
                await target.WriteAsync((byte[])[.. head, .. body], token);
            });
        }
    }

    /// <summary>One message.</summary>
    /// <param name="Type">Its type; 0 before the session has begun.</param>
    /// <param name="Body">What it has.</param>
    /// <param name="Abandon">Closes the side that it came from; the other side stays open until the hook has ended.</param>
    internal sealed record Message(char Type, byte[] Body, Action Abandon)
    {
        /// <summary>Whether the client sends rows of a COPY.</summary>
        public bool IsCopyData => Type == 'd';

        /// <summary>Whether the client asks for a COMMIT.</summary>
        public bool AsksForCommit => Type == 'Q' && Body.AsSpan().StartsWith("COMMIT"u8); // Not "READ COMMITTED", with which a transaction begins.

        /// <summary>What the server says that it did, such as "COMMIT" or "INSERT 0 20"; null: it says something else.</summary>
        public string? Done => Type == 'C' ? Encoding.ASCII.GetString(Body).TrimEnd('\0') : null;
    }
}
