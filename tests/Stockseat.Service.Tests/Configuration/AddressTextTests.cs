using System.Net;
using System.Text.Json.Nodes;
using Stockseat.Service.Configuration;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Tests.Configuration;

/// <summary>
/// An address is read as it is meant, or its fault says how it would have been read and what to write. Tested through the whole configuration, as people
/// use it.
/// </summary>
public sealed class AddressTextTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("stockseat-addresses-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData("192.168.010.020:1",
        "192.168.010.020 is read as 192.168.8.16, since a number that begins with 0 is octal; write 192.168.10.20 or 192.168.8.16, whichever is meant")]
    [InlineData("192.168.001.007:1", "192.168.001.007 is read as 192.168.1.7; write that")]
    [InlineData("192.168.009.1:1", "192.168.009.1 can't be read, since a number that begins with 0 is octal; write 192.168.9.1")]
    [InlineData("127.1:1", "127.1 is read as 127.0.0.1; write that")]
    [InlineData("2130706433:1", "2130706433 is read as 127.0.0.1; write that")]
    [InlineData("0x7f.0.0.1:1", "0x7f.0.0.1 is read as 127.0.0.1; write that")]
    [InlineData("300.0.0.1:1", "300.0.0.1 is not an address")]
    [InlineData("127.0.0.1 :1", "127.0.0.1  is not an address")]
    [InlineData("localhost:1", "localhost is a name; write its address")]
    [InlineData(":1", "it has no port")]
    [InlineData("127.0.0.1", "it has no port")]
    [InlineData("127.0.0.1:", "it has no port")]
    [InlineData("127.0.0.1:65536", "its port is \"65536\"; a whole number up to 65535, without leading zeros, was expected")]
    [InlineData("127.0.0.1:-1", "its port is \"-1\"")]
    [InlineData("127.0.0.1:080", "its port is \"080\"")]
    [InlineData("::1", "an IPv6 address is written in brackets, with the port after them")]
    [InlineData("[::1]", "it has no port")]
    [InlineData("[127.0.0.1]:1", "only an IPv6 address is written in brackets")]
    [InlineData("[::ffff:127.0.0.1]:1", "::ffff:127.0.0.1 is IPv4 in IPv6; write 127.0.0.1")]
    [InlineData("[::ffff:7f00:1]:1", "::ffff:7f00:1 is IPv4 in IPv6; write 127.0.0.1")]
    [InlineData("[fe80::1%2]:1", "fe80::1%2 has a zone")]
    [InlineData("[64:ff9b::192.168.010.1]:1", "192.168.010.1 is read as 192.168.8.1")]
    [InlineData("[:::1]:1", ":::1 is not an address")]
    public void An_endpoint_that_is_not_plain_is_a_fault_in_every_place(string text, string fault)
    {
        Assert.Contains(fault, Faults(s => s["Listen"] = new JsonObject { ["Line"] = text }), StringComparison.Ordinal);
        Assert.Contains(fault, Faults(s => s["Listen"] = new JsonObject { ["Grpc"] = text }), StringComparison.Ordinal);
        Assert.Contains(fault, Faults(s => Port(s, "Listen", text)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("192.168.010.020", "is read as 192.168.8.16")]
    [InlineData("192.168.010.0/24", "192.168.010.0 is read as 192.168.8.0")]
    [InlineData("10/8", "10 is read as 0.0.0.10; write that")]
    [InlineData("127.0.0.1/8", "127.0.0.1 has bits set after the prefix; write 127.0.0.0/8 for the whole range, or 127.0.0.1 for this one address")]
    [InlineData("2001:db8::1/33", "write 2001:db8::/33 for the whole range, or 2001:db8::1 for")]
    [InlineData("127.0.0.0/33", "after the / a prefix from 0 to 32 was expected")]
    [InlineData("127.0.0.0/08", "after the / a prefix from 0 to 32 was expected")]
    [InlineData("127.0.0.0/8/8", "after the / a prefix from 0 to 32 was expected")]
    [InlineData("::1/129", "after the / a prefix from 0 to 128 was expected")]
    [InlineData("::ffff:192.0.2.0/120", "::ffff:192.0.2.0 is IPv4 in IPv6; write 192.0.2.0")]
    [InlineData("fe80::1%eth0", "has a zone")]
    [InlineData("[::1]", "is not an address")]
    [InlineData("[::1]:80", "is not an address")]
    [InlineData("gauge.example", "gauge.example is a name; write its address")]
    public void A_range_that_is_not_plain_is_a_fault_in_every_place(string text, string fault)
    {
        Assert.Contains(fault, Faults(s => s["Clients"]![0]!["From"] = new JsonArray(text)), StringComparison.Ordinal);
        Assert.Contains(fault, Faults(s => Port(s, "Listen", "127.0.0.1:0")["From"] = new JsonArray(text)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("192.168.010.020:4001", "is read as 192.168.8.16")]
    [InlineData("127.1:4001", "127.1 is read as 127.0.0.1; write that")]
    [InlineData("0x7f000001:4001", "is read as 127.0.0.1; write that")]
    [InlineData("192.0.2.300:4001", "192.0.2.300 is not an address")]
    [InlineData("gauge:0", "port 0 is not a port to connect to")]
    [InlineData("gauge:65536", "its port is \"65536\"")]
    [InlineData("gauge", "it has no port")]
    [InlineData("a b:1", "a b is neither a name nor an address")]
    [InlineData("[::ffff:192.0.2.7]:4001", "write 192.0.2.7")]
    public void A_host_that_is_not_plain_is_a_fault(string text, string fault) =>
        Assert.Contains(fault, Faults(s => Port(s, "Connect", text)), StringComparison.Ordinal);

    [Theory]
    [InlineData("127.0.0.1", "127.0.0.1/32")]
    [InlineData("0.0.0.0/0", "0.0.0.0/0")]
    [InlineData("10.20.0.0/15", "10.20.0.0/15")]
    [InlineData("::1", "::1/128")]
    [InlineData("2001:DB8:0::0/32", "2001:db8::/32")]
    [InlineData("::/0", "::/0")]
    public void A_plain_range_is_read_as_written(string text, string expected) => Assert.Equal(expected, $"{AddressText.Network(text, out _)}");

    [Theory]
    [InlineData("127.0.0.1:0", "127.0.0.1:0")]
    [InlineData("0.0.0.0:65535", "0.0.0.0:65535")]
    [InlineData("[::]:28611", "[::]:28611")]
    [InlineData("[2001:DB8:0:0::1]:1", "[2001:db8::1]:1")]
    [InlineData("[64:ff9b::192.0.2.1]:1", "[64:ff9b::192.0.2.1]:1")]
    public void A_plain_endpoint_is_read_as_written(string text, string expected) =>
        Assert.Equal(IPEndPoint.Parse(expected), AddressText.Endpoint(text, out _));

    [Theory]
    [InlineData("gauge.example:4001", "gauge.example", 4001)]
    [InlineData("gauge-7:1", "gauge-7", 1)]
    [InlineData("gauge.7up:1", "gauge.7up", 1)]
    [InlineData("192.0.2.7:65535", "192.0.2.7", 65535)]
    [InlineData("[::1]:4001", "::1", 4001)]
    public void A_plain_host_is_read_as_written(string text, string host, int port)
    {
        var to = AddressText.Host(text, out _);
        Assert.Equal((host, port), (to?.Host, to?.Port));
    }

    private string Faults(Action<JsonNode> change)
    {
        var settings = JsonNode.Parse(
            """{ "Clients": [ { "Name": "a", "From": [ "127.0.0.1" ], "Roles": [] } ], "Gauges": { "g": { "Unit": "mm", "Agreement": "0.1 mm" } } }""")!;
        change(settings);
        var file = Path.Combine(_folder, "stockseat.json");
        File.WriteAllText(file, settings.ToJsonString());
        return Assert.Single(SettingsReader.Read(new(file), new Dictionary<string, string>()).Faults);
    }

    private static JsonNode Port(JsonNode settings, string key, string value)
    {
        var port = JsonNode.Parse("""{ "Name": "p", "Gauge": "g", "Fixture": "bed", "Pattern": "(?<reading>[0-9]+)" }""")!;
        port[key] = value;
        settings["ReadingPorts"] = new JsonArray(port);
        return port;
    }
}
