using System.Net;
using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Clients;

/// <summary>Who a caller is, by the address that it comes from: the first entry that holds it counts.</summary>
public sealed class ClientTable(IReadOnlyList<Client> clients)
{
    /// <summary>What a caller is told whom no entry holds.</summary>
    public static Refusal Stranger { get; } = Refusal.Of(Reason.NotPermitted, "no client of the configuration comes from this address");

    /// <summary>The client at an address; null when no entry holds it.</summary>
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
