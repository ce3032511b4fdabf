using System.Net;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Certificates;
using Stockseat.Service.Clients;

namespace Stockseat.Service.Pages;

/// <summary>Who may open pages: a client on the service's own machine; elsewhere one that shows its certificate, or whose entry trusts its address.</summary>
public static class PageAccess
{
    /// <summary>Why a client may not open pages; null when it may.</summary>
    /// <param name="client">The client.</param>
    /// <param name="proof">What its certificate proved; null: it showed none.</param>
    /// <param name="address">Where it comes from.</param>
    public static Refusal? Refused(Client client, CallerProof? proof, IPAddress address) =>
        IPAddress.IsLoopback(address) || client.PagesByAddress || (client.Certificate is not null && proof is not null)
            ? null
            : new(
                Reason.NotPermitted, $"client {client.Name} came from {address} without a certificate, and its entry does not say that its address is enough; "
                    + "show a certificate, or state \"Pages\": \"by-address\" in its entry");
}
