using System.Globalization;
using System.Net;
using Stockseat.EndToEnd.Support;
using Stockseat.Tests.Support;

namespace Stockseat.Reliability.Support;

/// <summary>Clients with plain sockets, each of which asks again as soon as it has its reply, until their connections end.</summary>
internal sealed class Load
{
    private readonly Task _clients;

    private Load(Task clients) => _clients = clients;

    /// <summary>Starts clients, each on a thread of the pool.</summary>
    /// <param name="endpoint">Where the service answers.</param>
    /// <param name="count">How many clients.</param>
    /// <param name="history">Where they record what they know.</param>
    /// <param name="name">A prefix for each tag; not used before.</param>
    /// <param name="seed">For their diameters.</param>
    public static Load Start(IPEndPoint endpoint, int count, History history, string name, int seed) =>
        new(Task.WhenAll(Enumerable.Range(0, count).Select(i => Task.Run(() => Ask(endpoint, history, $"{name}-{i}", new Random(seed + i))))));

    /// <summary>Ends when that many more asks were answered; fails at once when a client did.</summary>
    public async Task More(History history, int count)
    {
        var more = history.More(count);
        await (await Task.WhenAny(more, _clients).Within("the load"));
        Assert.True(more.IsCompleted, "the service closed its connections under load");
    }

    /// <summary>Ends when all connections have ended.</summary>
    public Task End() => _clients.Within("the end of the connections");

    /// <summary>An ask with a diameter within the envelope, or now and then with one outside it.</summary>
    public static string Line(Random random, string tag)
    {
        var diameter = (random.Next(20) == 0 ? 30_000 : random.Next(7000, 9500)) / 100m;
        return string.Create(CultureInfo.InvariantCulture, $"locate fixture=pinbed-1 diameter={diameter}mm tag={tag}");
    }

    private static async Task Ask(IPEndPoint endpoint, History history, string name, Random random)
    {
        using var socket = await LineSocket.Connect(endpoint);
        LineReply? reply;
        var i = 0;
        do
        {
            var tag = $"{name}-{i++}";
            reply = await socket.TryAsk(Line(random, tag));
            history.Add(name, tag, reply);
        }
        while (reply is not null);
    }
}
