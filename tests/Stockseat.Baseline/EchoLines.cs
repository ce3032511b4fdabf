using System.Buffers;
using Microsoft.AspNetCore.Connections;

namespace Stockseat.Baseline;

/// <summary>Replies to each line with a line the size of an answer.</summary>
internal sealed class EchoLines : ConnectionHandler
{
    private static ReadOnlySpan<byte> Reply =>
        "ok tag=7 serial=1234567 fixture=pinbed-1 revision=3 purpose=pick nest=0,0 diameter=0.081000 unit=m first=yes "u8 +
        "x=0.372104 y=-0.206553 z=0.118002 qw=0.000000 qx=1.000000 qy=0.000000 qz=0.000000 "u8 +
        "bx=0.000004 by=0.005123 bz=0.000002 ox=0.000004 oy=-0.005123 oz=-0.000002 end\n"u8;

    public override async Task OnConnectedAsync(ConnectionContext connection)
    {
        try
        {
            await Converse(connection);
        }
        catch (Exception e) when (e is ConnectionResetException or ConnectionAbortedException or OperationCanceledException)
        {
            // The load program disconnected.
        }
    }

    private static async Task Converse(ConnectionContext connection)
    {
        var (input, output) = (connection.Transport.Input, connection.Transport.Output);
        while (true)
        {
            var read = await input.ReadAsync();
            var rest = read.Buffer;
            while (rest.PositionOf((byte)'\n') is { } end)
            {
                output.Write(Reply);
                rest = rest.Slice(rest.GetPosition(1, end));
            }

            input.AdvanceTo(rest.Start, rest.End);
            if ((await output.FlushAsync()).IsCompleted || read.IsCompleted)
            {
                return;
            }
        }
    }
}
