using System.Net;
using System.Net.Security;
using System.Net.Sockets;
using System.Text;
using Stockseat.Load.Servers;

namespace Stockseat.Load.Clients;

/// <summary>
/// A plain connection of the line protocol: one buffer, one request that is sent again and again, and no parsing beyond finding line ends.
/// </summary>
internal sealed class LineClient : IDisposable
{
    private readonly Socket _socket = new(SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
    private readonly byte[] _buffer = new byte[4096];
    private readonly byte[] _request;
    private SslStream? _tls;
    private int _column;

    private LineClient(int number) =>
        _request = Encoding.ASCII.GetBytes($"locate fixture={Workplace.Fixture} diameter={70 + number % 20}.25mm tag={number}\n");

    public static async Task<LineClient> Connect(IPEndPoint server, int number, CancellationToken token, Certificates? tls = null)
    {
        var client = new LineClient(number);
        try
        {
            await client._socket.ConnectAsync(server, token);
            if (tls is not null)
            {
                client._tls = new(new NetworkStream(client._socket));
                await client._tls.AuthenticateAsClientAsync(tls.Options(), token);
            }

            return client;
        }
        catch
        {
            client.Dispose();
            throw;
        }
    }

    /// <summary>Sends the request; the kernel's buffer takes it as a whole.</summary>
    public void Send()
    {
        if (_tls is not null)
        {
            _tls.Write(_request);
        }
        else if (_socket.Send(_request) != _request.Length)
        {
            throw new IOException("the server does not read");
        }
    }

    /// <summary>Waits for replies.</summary>
    /// <returns>How many replies ended; 0 when the connection did.</returns>
    public async ValueTask<int> Receive(CancellationToken token)
    {
        while (await Read(token) is > 0 and var length)
        {
            var ended = Count(_buffer.AsSpan(0, length));
            if (ended > 0)
            {
                return ended;
            }
        }

        return 0;
    }

    private ValueTask<int> Read(CancellationToken token) =>
        _tls is null ? _socket.ReceiveAsync(_buffer, token) : _tls.ReadAsync(_buffer, token);

    /// <summary>One request and its reply.</summary>
    public async ValueTask Ask(CancellationToken token)
    {
        Send();
        if (await Receive(token) != 1)
        {
            throw new IOException("the server ended the connection");
        }
    }

    public void Dispose()
    {
        _tls?.Dispose();
        _socket.Dispose();
    }

    private int Count(ReadOnlySpan<byte> bytes)
    {
        var ended = 0;
        while (bytes.Length > 0)
        {
            // A refusal is not an answer: nothing is measured with refusals.
            if (_column == 0 && bytes[0] != (byte)'o')
            {
                throw new InvalidOperationException($"refused: {Encoding.ASCII.GetString(bytes)}");
            }

            var end = bytes.IndexOf((byte)'\n');
            (_column, ended) = end < 0 ? (_column + bytes.Length, ended) : (0, ended + 1);
            bytes = end < 0 ? [] : bytes[(end + 1)..];
        }

        return ended;
    }
}
