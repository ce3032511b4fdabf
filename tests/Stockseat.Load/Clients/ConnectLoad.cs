using System.Net;
using Stockseat.Load.Servers;

namespace Stockseat.Load.Clients;

/// <summary>Clients that connect anew for every locate in lines.</summary>
internal sealed class ConnectLoad(IPEndPoint server, int clients, Certificates? tls = null) : ILoad
{
    public int Clients => clients;

    public async ValueTask Ask(int client, CancellationToken token)
    {
        using var line = await LineClient.Connect(server, client, token, tls);
        await line.Ask(token);
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;
}
