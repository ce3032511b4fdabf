using System.Net;
using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Certificates;

namespace Stockseat.Service.Clients;

/// <summary>
/// By which names the service may be called: any address, localhost, the names of its certificate and of this machine, and those of the configuration. A page
/// in a browser can make a name of its own lead to this service, but not an address or one of these names.
/// </summary>
/// <param name="allowed">The names of the configuration.</param>
/// <param name="tls">The service's certificate; null: there is none.</param>
public sealed class HostNames(IReadOnlyList<string> allowed, ServiceTls? tls)
{
    private static readonly string Machine = Dns.GetHostName();

    /// <summary>Why a call of a program is refused before it is looked at further; null when it is not.</summary>
    public Refusal? Refused(HttpRequest request)
    {
        var headers = request.Headers;
        return headers.Origin.Count > 0 || headers.ContainsKey("Sec-Fetch-Site") || headers.ContainsKey("Sec-Fetch-Mode")
            ? Refusal.Of(Reason.NotPermitted, "the request came from a page in a browser, and this port answers programs only")
            : Unknown(request);
    }

    /// <summary>Why a request is refused for the name by which it calls the service; null when it is not.</summary>
    public Refusal? Unknown(HttpRequest request)
    {
        var host = request.Host.Host.TrimEnd('.');
        return IsKnown(host) ? null : Refusal.Of(
            Reason.NotPermitted, $"'{Refusal.Shown(host)}' is not a name of this service; call it by its address or a name of its certificate, or add the name "
                + "to AllowedHosts");
    }

    private bool IsKnown(string host) => IPAddress.TryParse(host.Trim('[', ']'), out _) || Is(host, "localhost") || Is(host, Machine)
        || allowed.Any(name => Is(host, name)) || tls?.Now.Hosts.Any(name => IsNamed(host, name)) == true;

    /// <summary>A name of a certificate may stand for all names below another.</summary>
    private static bool IsNamed(string host, string name) => Is(host, name)
        || (name.StartsWith("*.", StringComparison.Ordinal) && host.IndexOf('.') is > 0 and var dot && Is(host[dot..], name[1..]));

    private static bool Is(string host, string name) => string.Equals(host, name, StringComparison.OrdinalIgnoreCase);
}
