using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace Stockseat.Service.Texts;

/// <summary>
/// Addresses, each read as it is meant or not at all. The framework accepts more than people write: it reads 192.168.010.020 as 192.168.8.16, 127.1 as
/// 127.0.0.1, and ignores a port. So IPv4 is accepted only in its usual text: what was read and written again must be the same.
/// </summary>
public static class AddressText
{
    private const string Octal = "a number that begins with 0 is octal";

    /// <summary>An address of this machine and a port.</summary>
    /// <param name="text">Such as 127.0.0.1:28610 or [::1]:28610.</param>
    /// <param name="fault">What is wrong, how it would be read, and what to write.</param>
    public static IPEndPoint? Endpoint(string text, out string fault) =>
        Split(text, out var host, out var port, out fault) && Address(host, out fault) is { } address ? new(address, port) : null;

    /// <summary>A host's name or address and a port above 0.</summary>
    /// <param name="text">Such as gauge.example:4001 or 192.0.2.7:4001.</param>
    /// <param name="fault">What is wrong, how it would be read, and what to write.</param>
    public static DnsEndPoint? Host(string text, out string fault)
    {
        if (!Split(text, out var host, out var port, out fault))
        {
            return null;
        }

        if (port == 0)
        {
            fault = "port 0 is not a port to connect to";
            return null;
        }

        // No name ends in a bare number, so such a text is meant as an address.
        var isAddress = host.Contains(':', StringComparison.Ordinal) || host.Split('.')[^1].All(char.IsAsciiDigit) || IPAddress.TryParse(host, out _);
        if (isAddress)
        {
            return Address(host, out fault) is { } address ? new(address.ToString(), port) : null;
        }

        fault = $"{host} is neither a name nor an address";
        return Uri.CheckHostName(host) == UriHostNameType.Dns ? new(host, port) : null;
    }

    /// <summary>An address, or a range of addresses.</summary>
    /// <param name="text">Such as 192.0.2.7, 192.0.2.0/24 or 2001:db8::/32.</param>
    /// <param name="fault">What is wrong, how it would be read, and what to write.</param>
    public static IPNetwork? Network(string text, out string fault)
    {
        var parts = text.Split('/');
        if (Address(parts[0], out fault) is not { } address)
        {
            return null;
        }

        var longest = address.AddressFamily == AddressFamily.InterNetwork ? 32 : 128;
        if (parts.Length > 2 || Whole(parts.ElementAtOrDefault(1) ?? $"{longest}", longest) is not { } prefix)
        {
            fault = $"after the / a prefix from 0 to {longest} was expected";
            return null;
        }

        var mask = new IPNetwork(First(address, prefix), prefix);
        if (mask.BaseAddress.Equals(address))
        {
            return mask;
        }

        fault = $"{address} has bits set after the prefix; write {mask} for the whole range, or {address} for this one address";
        return null;
    }

    private static bool Split(string text, out string host, out int port, out string fault)
    {
        var at = text.LastIndexOf(':');
        (host, port, fault) = (at > 0 ? text[..at] : "", 0, "");
        if (at <= 0 || text[^1] is ']' or ':')
        {
            fault = "it has no port";
            return false;
        }

        var bracketed = host is ['[', .., ']'];
        if (bracketed != host.Contains(':', StringComparison.Ordinal))
        {
            fault = bracketed ? "only an IPv6 address is written in brackets" : "an IPv6 address is written in brackets, with the port after them";
            return false;
        }

        if (Whole(text[(at + 1)..], ushort.MaxValue) is not { } number)
        {
            fault = $"its port is \"{text[(at + 1)..]}\"; a whole number up to {ushort.MaxValue}, without leading zeros, was expected";
            return false;
        }

        (host, port) = (host.Trim('[', ']'), number);
        return true;
    }

    private static IPAddress? Address(string text, out string fault)
    {
        if (text.Contains(':', StringComparison.Ordinal))
        {
            return Six(text, out fault);
        }

        var isRead = IPAddress.TryParse(text, out var address);
        if (isRead && address!.ToString() == text)
        {
            fault = "";
            return address;
        }

        var decimals = string.Join('.', text.Split('.').Select(n => n.TrimStart('0') is { Length: > 0 } rest ? rest : n[..Math.Min(1, n.Length)]));
        var meant = decimals != text && IPAddress.TryParse(decimals, out var other) && other.ToString() == decimals ? decimals : null;
        fault = (isRead, meant) switch
        {
            (true, { } m) when m != $"{address}" => $"{text} is read as {address}, since {Octal}; write {m} or {address}, whichever is meant",
            (true, _) => $"{text} is read as {address}; write that",
            (false, { } m) => $"{text} can't be read, since {Octal}; write {m}",
            _ when text.Any(char.IsAsciiLetter) => $"{text} is a name; write its address",
            _ => text.Length == 0 ? "it has no address" : $"{text} is not an address",
        };
        return null;
    }

    private static IPAddress? Six(string text, out string fault)
    {
        if (text.Contains('%', StringComparison.Ordinal))
        {
            fault = $"{text} has a zone, which is valid only on this machine and until its next start; write an address without %";
            return null;
        }

        var last = text[(text.LastIndexOf(':') + 1)..];
        if (last.Contains('.', StringComparison.Ordinal) && Address(last, out fault) is null)
        {
            return null;
        }

        var plain = text.All(c => char.IsAsciiHexDigit(c) || c is ':' or '.');
        if (!plain || !IPAddress.TryParse(text, out var address) || address.AddressFamily != AddressFamily.InterNetworkV6)
        {
            fault = $"{text} is not an address";
            return null;
        }

        if (address.IsIPv4MappedToIPv6)
        {
            fault = $"{text} is IPv4 in IPv6; write {address.MapToIPv4()}, which means callers over both";
            return null;
        }

        fault = "";
        return address;
    }

    /// <summary>A whole number as it is usually written.</summary>
    private static int? Whole(string text, int most) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number <= most
            && number.ToString(CultureInfo.InvariantCulture) == text ? number : null;

    /// <summary>The first address of the range in which an address is.</summary>
    private static IPAddress First(IPAddress address, int prefix)
    {
        var bytes = address.GetAddressBytes();
        for (var i = 0; i < bytes.Length; i++)
        {
            bytes[i] &= (byte)(0xFF00 >> Math.Clamp(prefix - (8 * i), 0, 8));
        }

        return new(bytes);
    }
}
