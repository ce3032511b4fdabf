using System.Net;
using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Clients;

/// <summary>Who a caller is, by its address: the first entry that includes the address counts.</summary>
public sealed class ClientTable(IReadOnlyList<Client> clients)
{
    /// <summary>The refusal for a caller whose address no entry includes.</summary>
    public static Refusal Stranger { get; } = Refusal.Of(Reason.NotPermitted, "no client of the configuration comes from this address");

    /// <summary>The client at an address; null when no entry includes it.</summary>
    public Client? Find(IPAddress? address)
    {
        if (address is null)
        {
            return null;
        }

        address = Plain(address);
        return clients.FirstOrDefault(client => client.From.Any(network => network.Contains(address)));
    }

    /// <summary>IPv4 mapped in IPv6 is IPv4.</summary>
    public static IPAddress Plain(IPAddress address) => address.IsIPv4MappedToIPv6 ? address.MapToIPv4() : address;
}
