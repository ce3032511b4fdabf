using System.Net;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Certificates;

namespace Stockseat.Service.Clients;

/// <summary>Who a caller is, by its address and by the certificate that it shows: the first entry for which both hold counts.</summary>
public sealed class ClientTable(IReadOnlyList<Client> clients)
{
    /// <summary>The refusal for a caller whom no entry includes.</summary>
    public static Refusal Stranger { get; } = Refusal.Of(Reason.NotPermitted, "no client of the configuration comes from this address");

    /// <summary>The client; null when the caller is none.</summary>
    public Client? Find(IPAddress? address, CallerProof? proof)
    {
        if (address is null)
        {
            return null;
        }

        address = Plain(address);
        return clients.FirstOrDefault(client => client.Is(address, proof));
    }

    /// <summary>Whether a client may come from an address, with whatever certificate.</summary>
    public bool MayCome(IPAddress address)
    {
        address = Plain(address);
        return clients.Any(client => client.From.Any(network => network.Contains(address)));
    }

    /// <summary>Whether an entry states this pin.</summary>
    public bool KnowsPin(string pin) => clients.Any(client => client.Certificate == pin);

    /// <summary>IPv4 mapped in IPv6 is IPv4.</summary>
    public static IPAddress Plain(IPAddress address) => address.IsIPv4MappedToIPv6 ? address.MapToIPv4() : address;
}
