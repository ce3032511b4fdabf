using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Json.Schema;
using Stockseat.Service.Configuration;
using Stockseat.Service.Tests.Gauges;

namespace Stockseat.Service.Tests.Configuration;

public sealed class ReadingPortsReaderTests : IDisposable
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Repository.Config, "stockseat.schema.json")));

    private readonly string _folder = Directory.CreateTempSubdirectory("stockseat-ports-").FullName;

    /// <summary>Faulty ports: what is changed (null: left out), a part of the only fault, whether a schema finds it.</summary>
    public static TheoryData<string, string, bool> Faulty => new()
    {
        { """{ "Name": null }""", "ReadingPorts[0].Name: is missing", true },
        { """{ "Name": "a b" }""", "ReadingPorts[0].Name: is \"a b\"", true },
        { """{ "Name": "local" }""", "ReadingPorts[0].Name: is \"local\", which is also the name of another reading port or of a client", false },
        { """{ "Gauge": null }""", "ReadingPorts[0].Gauge: is missing", true },
        { """{ "Gauge": "none" }""", "ReadingPorts[0].Gauge: is \"none\"; one of bench-2, bare was expected", false },
        { """{ "Fixture": null }""", "ReadingPorts[0].Fixture: is missing", true },
        { """{ "Fixture": "a b" }""", "ReadingPorts[0].Fixture: is \"a b\"", true },
        { """{ "Listen": null }""", "ReadingPorts[0].Listen: and Connect are both missing", true },
        { """{ "Connect": "gauge:4001" }""", "ReadingPorts[0].Listen: and Connect are both stated", true },
        { """{ "Listen": "127.0.0.1" }""", "ReadingPorts[0].Listen: is \"127.0.0.1\"", true },
        { """{ "Listen": "127.0.0.1:65536" }""", "ReadingPorts[0].Listen: is \"127.0.0.1:65536\"", false },
        { """{ "Listen": "0.0.0.0:28620" }""", "ReadingPorts[0].From: is missing", false },
        { """{ "Listen": null, "Connect": "gauge" }""", "ReadingPorts[0].Connect: is \"gauge\"", true },
        { """{ "Listen": null, "Connect": "gauge:0" }""", "ReadingPorts[0].Connect: is \"gauge:0\"", true },
        { """{ "Listen": null, "Connect": "a b:1" }""", "ReadingPorts[0].Connect: is \"a b:1\"", true },
        { """{ "Listen": null, "Connect": "::1:4001" }""", "ReadingPorts[0].Connect: is \"::1:4001\"", true },
        { """{ "Listen": null, "Connect": "gauge:1", "From": [ "127.0.0.1" ] }""", "ReadingPorts[0].From: belongs to Listen", false },
        { """{ "From": [ "here" ] }""", "ReadingPorts[0].From[0]: is \"here\"", true },
        { """{ "From": [] }""", "ReadingPorts[0].From: is []", true },
        { """{ "Pattern": null }""", "ReadingPorts[0].Pattern: is missing", true },
        { """{ "Pattern": "[0-9]+" }""", "ReadingPorts[0].Pattern: \"[0-9]+\" has no group reading", true },
        { """{ "Pattern": "(?<reading>[0-9]+" }""", "ReadingPorts[0].Pattern: \"(?<reading>[0-9]+\" is not a regular expression", false },
        { """{ "Pattern": "(?<reading>[0-9]+)(?<x>y)" }""", "has a group x", false },
        { """{ "Unit": "yd" }""", "ReadingPorts[0].Unit: is \"yd\"", true },
        { """{ "Gauge": "bare", "Readings": 1 }""", "ReadingPorts[0].Unit: is missing", false },
        { """{ "DecimalMark": ";" }""", "ReadingPorts[0].DecimalMark: is \";\"", true },
        { """{ "Scale": 0 }""", "ReadingPorts[0].Scale: is \"0\"; a number from 0.000001 to 1000000 was expected", true },
        { """{ "Scale": -1 }""", "ReadingPorts[0].Scale: is \"-1\"", true },
        { """{ "Readings": 0 }""", "ReadingPorts[0].Readings: is 0", true },
        { """{ "Readings": 21 }""", "ReadingPorts[0].Readings: is 21", true },
        { """{ "Gauge": "bare", "Unit": "mm" }""", "ReadingPorts[0].Readings: is 2 unless stated, and gauge bare states no Agreement", false },
        { """{ "Gauge": "bare", "Unit": "mm", "Readings": 3 }""", "ReadingPorts[0].Readings: is 3, and gauge bare states no Agreement", false },
        { """{ "Within": "1 min" }""", "ReadingPorts[0].Within: is \"1 min\"", true },
        { """{ "Settle": "1 s" }""", "ReadingPorts[0].Settle: is \"1 s\"; a time such as \"00:00:01.000\", from 00:00:00 (off) to 00:01:00, was expected",
            true },
        { """{ "Settle": "00:01:01" }""", "ReadingPorts[0].Settle: is \"00:01:01\"", true },
        { """{ "Apart": "00:00:00.2" }""", "ReadingPorts[0].Apart: is \"00:00:00.2\"", true },
        { """{ "Apart": "00:00:01.500", "Readings": 3, "Within": "00:00:03" }""",
            "ReadingPorts[0].Apart: is 00:00:01.500; 3 readings that far apart do not fit into Within, which is 00:00:03", false },
        { """{ "Apart": null, "Readings": 20, "Within": "00:00:03" }""", "ReadingPorts[0].Apart: is 00:00:00.200 unless stated; 20 readings", false },
        { """{ "Lot": "a b" }""", "ReadingPorts[0].Lot: is \"a b\"", true },
        { """{ "Other": 1 }""", "ReadingPorts[0].Other: is not a key", true },
    };

    public static TheoryData<string> Sound =>
    [
        "{}",
        """{ "Listen": "0.0.0.0:28620", "From": [ "192.0.2.7" ] }""",
        """{ "Listen": "[::]:28620", "From": [ "2001:db8::/32" ], "Scale": 0.01, "Within": "00:00:10", "Lot": "L7", "Readings": 20 }""",
        """{ "Settle": "00:00:00", "Apart": "00:00:00.050" }""",
        """{ "Settle": "00:01:00", "Apart": "00:01:00", "Readings": 1 }""",
        """{ "Settle": "00:00:00.000", "Apart": "00:00:01.500", "Readings": 3, "Within": "00:00:04" }""",
        """{ "Listen": null, "Connect": "gauge.example:4001" }""",
        """{ "Listen": null, "Connect": "192.0.2.7:4001" }""",
        """{ "Listen": null, "Connect": "[::1]:4001" }""",
        """{ "Gauge": "bare", "Unit": "in", "Readings": 1 }""",
        """{ "Gauge": "bare", "Readings": 1, "Pattern": "(?<reading>[0-9.]+) (?<unit>mm|in)", "DecimalMark": "." }""",
    ];

    [Theory]
    [MemberData(nameof(Faulty))]
    public void A_fault_is_reported_with_its_place_and_value(string changes, string fault, bool schemaSees)
    {
        var text = Text(Port(changes));
        var reading = Read(text);

        Assert.Contains(fault, Assert.Single(reading.Faults), StringComparison.Ordinal);
        Assert.Equal(!schemaSees, Passes(text));
    }

    [Theory]
    [MemberData(nameof(Sound))]
    public void Sound_ports_are_read_and_pass_the_schema(string changes)
    {
        var text = Text(Port(changes));

        Assert.Empty(Read(text).Faults);
        Assert.True(Passes(text));
    }

    [Fact]
    public void Settings_that_are_not_stated_have_their_defaults()
    {
        var port = Read(Text(GaugeClient.Port(("DecimalMark", null), ("Settle", null), ("Apart", null)))).Settings!.ReadingPorts[0];

        Assert.Equal((2, TimeSpan.FromMinutes(1), '.', 1m, "mm", null), (port.Readings, port.Within, port.DecimalMark, port.Scale, port.Unit, port.Lot));
        Assert.Equal((TimeSpan.FromSeconds(1), TimeSpan.FromMilliseconds(200)), (port.Settle, port.Apart));
        Assert.Equal(["127.0.0.0/8", "::1/128"], port.From.Select(f => f.ToString()));
        Assert.Equal((0.05, 0.00003), (port.MasterMetres, port.MasterWithinMetres));
    }

    [Fact]
    public void Two_ports_of_the_same_name_are_a_fault() =>
        Assert.Contains("ReadingPorts[1].Name", Assert.Single(Read(Text(GaugeClient.Port(), GaugeClient.Port())).Faults), StringComparison.Ordinal);

    [Fact]
    public void All_faults_of_all_ports_are_reported_at_once()
    {
        var faults = Read(Text(Port("""{ "Name": "a b", "Gauge": "none", "Pattern": "x" }"""), Port("""{ "Name": "b", "Scale": 0, "More": 1 }"""))).Faults;

        Assert.Equal(
            ["ReadingPorts[0].Gauge", "ReadingPorts[0].Name", "ReadingPorts[0].Pattern", "ReadingPorts[1].More", "ReadingPorts[1].Scale"],
            faults.Select(f => f[(Config.Length + 2)..].Split(": ")[0]).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Each_port_is_listed_with_its_source()
    {
        var source = Assert.Single(Read(Text(GaugeClient.Port(("Apart", "00:00:00.250")))).Settings!.Sources, s => s.Key == "ReadingPorts:0");

        Assert.Equal(
            ("bench-gauge of gauge bench-2 for pinbed-1, listens on 127.0.0.1:0 from 127.0.0.0/8, ::1/128; "
                + "pattern (?<reading>[0-9]+,[0-9]+), unit mm, decimal mark ,, scale 1, 2 readings within 00:01:00, settle 00:00:00.000, apart 00:00:00.250, "
                    + "lot not stated", "file"),
            (source.Value, source.Source));
    }

    [Fact]
    public void The_example_in_the_documentation_is_sound()
    {
        var page = File.ReadAllText(Path.Combine(Repository.Root, "proto", "README.md"));
        var example = Regex.Match(page, """```json tested by ReadingPortsReaderTests\n(?<json>\{ "Gauges".*?)\n```""",
            RegexOptions.Singleline).Groups["json"].Value;

        Assert.Equal(2, Read(example).Settings!.ReadingPorts.Count);
        Assert.True(Passes(example));
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string Config => Path.Combine(_folder, "stockseat.json");

    private static JsonObject Port(string changes) => GaugeClient.Port([.. JsonNode.Parse(changes)!.AsObject().Select(c => (c.Key, c.Value?.DeepClone()))]);

    private static string Text(params JsonObject[] ports) => new JsonObject
    {
        ["Gauges"] = JsonNode.Parse("""{ "bench-2": { "Unit": "mm", "Agreement": "0.10 mm", "LimitsOfError": "0.03 mm", "Master": "50 mm" }, "bare": {} }"""),
        ["ReadingPorts"] = new JsonArray([.. ports]),
    }.ToJsonString();

    private static bool Passes(string text) => Schema.Evaluate(JsonDocument.Parse(text).RootElement).IsValid;

    private SettingsReading Read(string text)
    {
        File.WriteAllText(Config, text);
        return SettingsReader.Read(new(Config), new Dictionary<string, string>());
    }
}
