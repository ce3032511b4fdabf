using System.Net;
using System.Net.Sockets;
using System.Text;

namespace Stockseat.Cli.Tour;

/// <summary>A plain socket, as a controller has it: send a line, read a line.</summary>
internal sealed class LineClient : IDisposable
{
    private readonly TcpClient _tcp;
    private readonly StreamReader _reader;

    private LineClient(TcpClient tcp)
    {
        _tcp = tcp;
        _reader = new(tcp.GetStream(), Encoding.ASCII);
    }

    public static async Task<LineClient> Connect(IPEndPoint endpoint)
    {
        var tcp = new TcpClient { ReceiveTimeout = 10_000 };
        await tcp.ConnectAsync(endpoint);
        return new(tcp);
    }

    public async Task<string> Ask(string line)
    {
        await _tcp.GetStream().WriteAsync(Encoding.ASCII.GetBytes(line + "\n"));
        return await _reader.ReadLineAsync() ?? "";
    }

    public void Dispose()
    {
        _reader.Dispose();
        _tcp.Dispose();
    }
}
