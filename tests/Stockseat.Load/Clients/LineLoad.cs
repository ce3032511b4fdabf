using System.Net;
using Stockseat.Load.Servers;

namespace Stockseat.Load.Clients;

/// <summary>Locate over lines: a number of connections, one request in flight on each.</summary>
internal sealed class LineLoad(LineClient[] clients) : ILoad
{
    public static async Task<LineLoad> Connect(IPEndPoint server, int connections, CancellationToken token, Certificates? tls = null)
    {
        var clients = new List<LineClient>(connections);
        try
        {
            for (var i = 0; i < connections; i++)
            {
                clients.Add(await LineClient.Connect(server, i, token, tls));
            }

            return new([.. clients]);
        }
        catch
        {
            clients.ForEach(c => c.Dispose());
            throw;
        }
    }

    public int Clients => clients.Length;

    public ValueTask Ask(int client, CancellationToken token) => clients[client].Ask(token);

    /// <summary>Asks until there were that many answers.</summary>
    public Task AskAll(int answers, CancellationToken token) => Task.WhenAll(clients.Select(client => Task.Run(async () =>
    {
        for (var i = 0; i < answers / clients.Length; i++)
        {
            await client.Ask(token);
        }
    }, token)));

    public ValueTask DisposeAsync()
    {
        Array.ForEach(clients, c => c.Dispose());
        return ValueTask.CompletedTask;
    }
}
