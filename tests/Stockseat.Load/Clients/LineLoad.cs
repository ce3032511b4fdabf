using System.Net;

namespace Stockseat.Load.Clients;

/// <summary>Locate over lines: so many connections, one request in flight on each.</summary>
internal sealed class LineLoad(LineClient[] clients) : ILoad
{
    public static async Task<LineLoad> Connect(IPEndPoint server, int connections, CancellationToken token)
    {
        var clients = new List<LineClient>(connections);
        try
        {
            for (var i = 0; i < connections; i++)
            {
                clients.Add(await LineClient.Connect(server, i, token));
            }

            return new([.. clients]);
        }
        catch
        {
            clients.ForEach(c => c.Dispose());
            throw;
        }
    }

    public Task<double> Run(TimeSpan span, CancellationToken token) => Window.Rate(span, clients.Length, async (i, window) =>
    {
        for (var answers = 0L; ; answers++)
        {
            await clients[i].Ask(token);
            if (!window.Open)
            {
                return answers;
            }
        }
    });

    /// <summary>Asks until there were so many answers.</summary>
    public Task Ask(int answers, CancellationToken token) => Task.WhenAll(clients.Select(client => Task.Run(async () =>
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
