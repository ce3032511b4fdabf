using System.Net.Security;
using System.Security.Cryptography.X509Certificates;
using Stockseat.Tests.Support.Certificates;

namespace Stockseat.Load.Servers;

/// <summary>A certificate for the service and one for its clients, on the curve P-256 as <c>stockseat certificate</c> makes them.</summary>
internal sealed class Certificates : IDisposable
{
    private readonly TestShop _shop = new();

    public Certificates()
    {
        _shop.Issue("service", TestShop.Server, selfSigned: true);
        _shop.Issue("load", TestShop.Client, selfSigned: true);
        Client = _shop.Load("load");
    }

    public string Pem => _shop.Pem("service");

    public string Key => _shop.Key("service");

    /// <summary>The pin of the clients' key.</summary>
    public string Pin => _shop.Pin("load");

    /// <summary>The clients' certificate, with its key.</summary>
    public X509Certificate2 Client { get; }

    /// <summary>How a client agrees on TLS: it trusts everybody, since what is measured is the service.</summary>
    public SslClientAuthenticationOptions Options() => new()
    {
        TargetHost = "localhost", ClientCertificates = [Client], RemoteCertificateValidationCallback = (_, _, _, _) => true,
    };

    public void Dispose()
    {
        Client.Dispose();
        _shop.Dispose();
    }
}
