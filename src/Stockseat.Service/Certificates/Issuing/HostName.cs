using System.Net;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Certificates.Issuing;

/// <summary>A name or an address under which callers reach the service.</summary>
/// <param name="Text">As it was typed.</param>
/// <param name="Address">The address; null when it is a name.</param>
public sealed record HostName(string Text, IPAddress? Address)
{
    /// <summary>Reads a name or an address.</summary>
    /// <param name="text">Such as cell-server.example, 192.0.2.7 or 2001:db8::7.</param>
    /// <param name="fault">What is wrong, and what to write.</param>
    public static HostName? Read(string text, out string fault)
    {
        fault = $"'{text}' is neither a host's name nor an address; write it as callers do, such as cell-server or 192.0.2.7, without a port";
        if (text.Contains('/', StringComparison.Ordinal))
        {
            return null;
        }

        if (text.Contains(':', StringComparison.Ordinal) || (text.Length > 0 && text.Split('.')[^1].All(char.IsAsciiDigit)))
        {
            var address = AddressText.Network(text, out var said)?.BaseAddress;
            fault = $"{said}; the address as callers write it was expected, without a port";
            return address is null ? null : new(text, address);
        }

        return CertificateName.IsDns(text) ? new(text, null) : null;
    }
}
