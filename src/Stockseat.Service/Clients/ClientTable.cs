using System.Net;
using Stockseat.Answers.Deciding;
using Stockseat.Service.Configuration;

namespace Stockseat.Service.Clients;

/// <summary>Who a caller is, by the address that it comes from: the first entry that holds it counts.</summary>
public sealed class ClientTable(Settings settings)
{
    /// <summary>The caller at an address; null when no entry holds it.</summary>
    public Caller? Find(IPAddress? address, int port)
    {
        if (address is null)
        {
            return null;
        }

        if (address.IsIPv4MappedToIPv6)
        {
            address = address.MapToIPv4();
        }

        foreach (var client in settings.Clients)
        {
            foreach (var network in client.From)
            {
                if (network.Contains(address))
                {
                    return new(client.Name, client.Cell, new IPEndPoint(address, port).ToString());
                }
            }
        }

        return null;
    }
}
