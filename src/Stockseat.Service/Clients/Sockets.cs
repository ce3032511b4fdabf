using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Connections.Features;

namespace Stockseat.Service.Clients;

/// <summary>What every connection needs, whatever it speaks.</summary>
internal static class Sockets
{
    /// <summary>How long a caller that is turned away has to read why, and to go.</summary>
    private static readonly TimeSpan Leave = TimeSpan.FromSeconds(1);

    /// <summary>Finds a half-open connection whose other side disappeared.</summary>
    public static void KeepAlive(this ConnectionContext connection)
    {
        if (connection.Features.Get<IConnectionSocketFeature>() is { } feature)
        {
            Clients.KeepAlive.Switch(feature.Socket);
        }
    }

    /// <summary>Says why a caller is turned away, and reads on for a moment: bytes that nobody read would make the system throw away what was said.</summary>
    public static async Task TakeLeave(this ConnectionContext connection, Func<ConnectionContext, CancellationToken, Task> say, TimeProvider time)
    {
        using var late = new CancellationTokenSource(Leave, time);
        var input = connection.Transport.Input;
        try
        {
            await say(connection, late.Token);
            await connection.Transport.Output.CompleteAsync();
            for (var read = await input.ReadAsync(late.Token); !read.IsCompleted; read = await input.ReadAsync(late.Token))
            {
                input.AdvanceTo(read.Buffer.End);
            }
        }
        catch (Exception e) when (e is OperationCanceledException or IOException or ConnectionAbortedException)
        {
            // It had its time.
        }
    }
}
