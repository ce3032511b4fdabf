using System.Net;
using Stockseat.Service.Clients;

namespace Stockseat.Service.Configuration;

/// <summary>What a configuration means for who is answered, where that is easily overlooked.</summary>
public static class CallerAdvice
{
    /// <summary>One sentence for each.</summary>
    public static IEnumerable<string> Of(Settings settings)
    {
        if (!IPAddress.IsLoopback(settings.Line.Address))
        {
            yield return $"Listen:Line ({settings.Line}) answers other machines by their addresses alone. An address proves only that somebody can send from "
                + "it: anybody in the same network can, and all programs behind one translation of addresses share it. What is sent can be read and changed on "
                + "the way. Keep it to a network that only the cell has, or use Listen:LineTls with certificates.";
        }

        var trusted = string.Join(", ", settings.Clients.Where(c => c.PagesByAddress).Select(c => c.Name));
        if (settings.Page is { } page && !IPAddress.IsLoopback(page.Address) && trusted.Length > 0)
        {
            yield return $"Listen:Page ({page}) shows pages to other machines by their addresses alone (clients {trusted}): whoever can send from such an "
                + "address may do what that client may. Use certificates where more than the cell is in the network.";
        }

        for (var i = 0; i < settings.Clients.Count; i++)
        {
            var hidden = settings.Clients[i];
            if (hidden.Certificate is not null && settings.Clients.Take(i).FirstOrDefault(c => c.Certificate is null && Covers(c, hidden)) is { } before)
            {
                yield return $"Clients:{i} ({hidden.Name}) is never matched: client {before.Name} before it includes all its addresses and asks for no "
                    + "certificate; put entries with a certificate first";
            }
        }
    }

    private static bool Covers(Client wide, Client narrow) =>
        narrow.From.All(n => wide.From.Any(w => w.PrefixLength <= n.PrefixLength && w.Contains(n.BaseAddress)));
}
