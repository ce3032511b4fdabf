using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Stockseat.Fixtures.Adoption;
using Stockseat.Service.Clients;
using Stockseat.Service.Configuration;

namespace Stockseat.Service.Tests.Configuration;

public sealed class SettingsReaderTests : IDisposable
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Repository.Config, "stockseat.schema.json")));

    private readonly string _folder = Directory.CreateTempSubdirectory("stockseat-settings-").FullName;

    /// <summary>Faulty files: the text, a part of the only fault, whether a schema finds it.</summary>
    public static TheoryData<string, string, bool> Faulty => new()
    {
        { """{ "Listen": { "Grpc": "127.0.0.1" } }""", "Listen:Grpc: is \"127.0.0.1\"; an address and a port", true },
        { """{ "Listen": { "Grpc": "localhost:1" } }""", "Listen:Grpc: is \"localhost:1\"; an address and a port", true },
        { """{ "Listen": { "Grpc": "127.0.0.1:65536" } }""", "Listen:Grpc", false },
        { """{ "Listen": { "Grpc": "127.0.0.1:" } }""", "Listen:Grpc", true },
        { """{ "Listen": { "Grpc": "127.0.0.1:-1" } }""", "Listen:Grpc", true },
        { """{ "Listen": { "Line": "::1" } }""", "Listen:Line: is \"::1\"; an address and a port", true },
        { """{ "Listen": { "Line": "[::1]" } }""", "Listen:Line: is \"[::1]\"; an address and a port", true },
        { """{ "Listen": { "Grpc": "0.0.0.0:28610" } }""", "a loopback address", true },
        { """{ "Listen": { "Grpc": "192.0.2.1:28610" } }""", "a loopback address", true },
        { """{ "Listen": { "Grpc": "[::]:28610" } }""", "a loopback address", false },
        { """{ "Listen": { "Pages": "127.0.0.1:28612" } }""", "Listen.Pages: is not a key that belongs here", true },
        { """{ "Listen": { "Page": "off" } }""", "Listen:Page: is \"off\"; an address and a port", true },
        { """{ "Listen": { "Page": "0.0.0.0:28612" } }""", "Listen:Page: is \"0.0.0.0:28612\", but there is no certificate", false },
        {
            """{ "Clients": [ { "Name": "a", "From": [ "127.0.0.1" ], "Roles": [], "Pages": "yes" } ] }""",
            "Clients[0].Pages: is \"yes\"; by-address was expected", true
        },
        { """{ "Listen": "127.0.0.1:28612" }""", "Listen: is the text", true },
        { """{ "listen": { } }""", "listen: is not a key that belongs here", true },
        { """{ "Data": "a", "Data": "a" }""", "Data: the key appears twice", false },
        { """{ "Data": "" }""", "Data: has 0 characters", true },
        { """{ "Data": 5 }""", "Data: is the number", true },
        { """{ "Data": "a\u0000b" }""", "Data: ", true },
        { """{ "Fixtures": "a\u0000b" }""", "Fixtures: ", true },
        { """{ "FirstAdoption": "Automatic" }""", "FirstAdoption: is \"Automatic\"", true },
        { """{ "RefuseAfterMiss": "true" }""", "RefuseAfterMiss: is the text \"true\"; true or false", true },
        { """{ "Ledger": { "SealKey": "" } }""", "Ledger.SealKey: ", true },
        { """{ "Ledger": { "SealEvery": 0 } }""", "Ledger.SealEvery: is 0", true },
        { """{ "Ledger": { "SealEvery": 1000001 } }""", "Ledger.SealEvery: is 1000001", true },
        { """{ "Ledger": { "SealEvery": "9" } }""", "Ledger.SealEvery: is the text", true },
        { """{ "Ledger": { "SealAfter": "30 s" } }""", "Ledger:SealAfter: is \"30 s\"", true },
        { """{ "Ledger": { "SealAfter": "1.00:00:01" } }""", "Ledger:SealAfter: is \"1.00:00:01\"; a day", false },
        { """{ "Ledger": { "Colour": "red" } }""", "Ledger.Colour", true },
        { """{ "Ledger": { "RollAt": "4" } }""", "Ledger:RollAt: is \"4\"; a size such as \"4 GB\"", true },
        { """{ "Ledger": { "RollAt": "0 GB" } }""", "Ledger:RollAt: is \"0 GB\"", true },
        { """{ "Ledger": { "RollAt": "-1 GB" } }""", "Ledger:RollAt: is \"-1 GB\"", true },
        { """{ "Ledger": { "RollAt": "4 gb" } }""", "Ledger:RollAt: is \"4 gb\"", true },
        { """{ "Ledger": { "RollAt": "1001 GB" } }""", "Ledger:RollAt: is \"1001 GB\"", false },
        { """{ "Ledger": { "Size": "4 GB" } }""", "Ledger.Size: is not a key that belongs here", true },
        { """{ "Freshness": "8 h" }""", "Freshness: is \"8 h\"", true },
        { """{ "Freshness": "8" }""", "Freshness: is \"8\"", true },
        { """{ "Freshness": "08:30" }""", "Freshness: is \"08:30\"", true },
        { """{ "Freshness": "-08:00:00" }""", "Freshness: is \"-08:00:00\"", true },
        { """{ "Freshness": "24:00:00" }""", "Freshness: is \"24:00:00\"", true },
        { """{ "Freshness": "00:00:00" }""", "Freshness: is \"00:00:00\"", false },
        { """{ "Freshness": "366.00:00:01" }""", "Freshness: is \"366.00:00:01\"", false },
        { """{ "Clients": [] }""", "Clients: has 0 items", true },
        { """{ "Clients": [ { "From": [ "127.0.0.1" ], "Roles": [ "locate" ] } ] }""", "Clients[0].Name: is missing", true },
        { """{ "Clients": [ { "Name": "a b", "From": [ "127.0.0.1" ], "Roles": [ "locate" ] } ] }""", "Clients[0].Name: is \"a b\"", true },
        { """{ "Clients": [ { "Name": "a", "Roles": [ "locate" ] } ] }""", "Clients[0].From: is missing", true },
        { """{ "Clients": [ { "Name": "a", "From": [], "Roles": [ "locate" ] } ] }""", "Clients[0].From: is []", true },
        { """{ "Clients": [ { "Name": "a", "From": [ "127.0.0.1/33" ], "Roles": [ "locate" ] } ] }""", "Clients[0].From[0]: is \"127.0.0.1/33\"", false },
        { """{ "Clients": [ { "Name": "a", "From": [ "127.0.0.1/8" ], "Roles": [ "locate" ] } ] }""", "Clients[0].From[0]: is \"127.0.0.1/8\"", false },
        { """{ "Clients": [ { "Name": "a", "From": [ "here" ], "Roles": [ "locate" ] } ] }""", "Clients[0].From[0]: is \"here\"", true },
        { """{ "Clients": [ { "Name": "a", "From": [ "::ffff:127.0.0.1" ], "Roles": [] } ] }""", "Clients[0].From[0]: is \"::ffff:127.0.0.1\"", false },
        { """{ "Clients": [ { "Name": "a", "From": [ "127.0.0.1" ] } ] }""", "Clients[0].Roles: is missing", true },
        { """{ "Clients": [ { "Name": "a", "From": [ "127.0.0.1" ], "Roles": [ "Locate" ] } ] }""",
            "Clients[0].Roles[0]: is \"Locate\"; one of locate, measure, review, calibrate", true },
        { """{ "Clients": [ { "Name": "a", "From": [ "127.0.0.1" ], "Roles": [], "Fixtures": [] } ] }""", "Clients[0].Fixtures: is []", true },
        { """{ "Clients": [ { "Name": "a", "From": [ "127.0.0.1" ], "Roles": [], "Fixtures": [ "a b" ] } ] }""",
            "Clients[0].Fixtures[0]: is \"a b\"; a fixture's name, or *", true },
        { """{ "Clients": [ { "Name": "a", "From": [ "127.0.0.1" ], "Roles": [], "Form": "none" } ] }""", "Clients[0].Form: is \"none\"; one of named", false },
        { """{ "Clients": [ { "Name": "a", "From": [ "127.0.0.1" ], "Roles": [], "Connections": 0 } ] }""", "Clients[0].Connections: is 0", true },
        { """{ "Clients": [ { "Name": "a", "From": [ "127.0.0.1" ], "Roles": [], "Rate": 0 } ] }""", "Clients[0].Rate: is 0", true },
        { """{ "Clients": [ { "Name": "a", "From": [ "127.0.0.1" ], "Roles": [], "Watches": 65 } ] }""", "Clients[0].Watches: is 65", true },
        { """{ "Limits": { "Connections": 0 } }""", "Limits.Connections: is 0", true },
        { """{ "Limits": { "Idle": "12 h" } }""", "Limits.Idle: is \"12 h\"", true },
        { """{ "Limits": { "Other": 5 } }""", "Limits.Other: is not a key", true },
        { """{ "Forms": { "f": { "Ok": "ok {serial} {bx} {by} {bz} end" } } }""", "Forms.f.Refused: is missing", true },
        { """{ "Forms": { "a b": { "Ok": "ok {serial} {bx} {by} {bz} end", "Refused": "no {reason}" } } }""", "Forms.a b: is not a form", true },
        { """{ "Forms": { "f": { "Ok": "ok {bx} {by} {bz} end", "Refused": "no {reason}" } } }""", "has no {serial}", true },
        { """{ "Forms": { "f": { "Ok": "ok {serial} {bx} {by} {bz} end", "Refused": "{reason}" } } }""", "begins with no status word", true },
        { """{ "Forms": { "f": { "Ok": "ok {serial} {bx} {by} {bz} end", "Refused": "no } {reason}" } } }""", "has a '}'", true },
        { """{ "Forms": { "f": { "Ok": "ok {serial} {bx} {by} {bz} end", "Refused": "no {reason}", "Unit": "in" } } }""", "Forms.f.Unit: is \"in\"", true },
        { """{ "Forms": { "f": { "Ok": "ok {serial} {bx} {by} {bz} end", "Refused": "no {reason}", "Decimals": 13 } } }""", "Forms.f.Decimals: is 13", true },
        { """{ "Forms": { "f": { "Ok": "ok {serial} {bx} {by} {bz} end", "Refused": "no {reason}", "Decimals": 3 } } }""", "rounds to more than 0.1 mm",
            false },
        { """{ "Forms": { "f": { "Ok": "ok {serial} {bx} {by} {bz} end", "Refused": "no {reason}", "Other": 3 } } }""", "Forms.f.Other: is not a key", true },
        { """{ "Forms": { "named": 5 } }""", "Forms.named: is the number", true },
        { """{ "Gauges": { "a b": { } } }""", "Gauges.a b: is not a gauge's name", true },
        { """{ "Gauges": { "a": { "Unit": "yd" } } }""", "Gauges.a.Unit: is \"yd\"", true },
        { """{ "Gauges": { "a": { "Agreement": "0.1" } } }""", "Gauges.a.Agreement: is \"0.1\": it has no unit", true },
        { """{ "Gauges": { "a": { "Resolution": "0 mm" } } }""", "Gauges.a.Resolution: is \"0 mm\"", false },
        { """{ "Gauges": { "a": { "Freshness": "8" } } }""", "Gauges.a.Freshness: is \"8\"", true },
        { """{ "Gauges": { "a": 5 } }""", "Gauges.a: is the number", true },
        { """{ "Lots": { "a b": { } } }""", "Lots.a b: is not a lot's name", true },
        { """{ "Lots": { "a": 5 } }""", "Lots.a: is the number", true },
        { """{ "Lots": { "a": { "Nominal": "92.5 mm", "Tolerance": "H11" } } }""",
            "Lots.a.Tolerance: is not a known tolerance; known are h5 to h16, ", true },
        { """{ "Lots": { "a": { "Nominal": "92.5 mm", "Tolerance": "" } } }""", "Lots.a.Tolerance: has 0 characters", true },
        { """{ "Lots": { "a": { "Nominal": "600 mm", "Tolerance": "h11" } } }""",
            "Lots.a.Tolerance: has no value for a nominal of 600 mm: h11 covers nominal diameters up to 500 mm; state plus and minus instead", false },
        { """{ "Lots": { "a": { "Nominal": "9 mm", "Tolerance": "EN 10060" } } }""", "Lots.a.Tolerance: has no value for a nominal of 9 mm", false },
        { """{ "Lots": { "a": { "Nominal": "92.5", "Tolerance": "h11" } } }""", "Lots.a.Nominal: is \"92.5\": it has no unit", true },
        { """{ "Lots": { "a": { "Nominal": "0 mm", "Tolerance": "h11" } } }""", "Lots.a.Nominal: is \"0 mm\"", false },
        { """{ "Lots": { "a": { "Nominal": "92.5 mm" } } }""", "Lots.a.Nominal: needs a tolerance as well, or plus and minus", true },
        { """{ "Lots": { "a": { "Tolerance": "h11" } } }""", "Lots.a.Tolerance: needs a nominal as well", true },
        { """{ "Lots": { "a": { "Nominal": "90 mm", "Tolerance": "h11", "Plus": "1 mm", "Minus": "1 mm" } } }""",
            "Lots.a.Tolerance: can't be stated together with plus or minus", true },
        { """{ "Lots": { "a": { "Nominal": "90 mm", "Plus": "1 mm" } } }""", "Lots.a.Plus: needs a minus as well", true },
        { """{ "Lots": { "a": { "Nominal": "90 mm", "Minus": "1 mm" } } }""", "Lots.a.Minus: needs a plus as well", true },
        { """{ "Lots": { "a": { "Plus": "1 mm", "Minus": "1 mm" } } }""", "Lots.a.Plus: needs a nominal as well", true },
        { """{ "Lots": { "a": { "Nominal": "90 mm", "Plus": "0 mm", "Minus": "0 mm" } } }""", "Lots.a.Plus: and minus are both 0", false },
        { """{ "Lots": { "a": { "Nominal": "90 mm", "Plus": "0 mm", "Minus": "90 mm" } } }""", "Lots.a.Minus: makes the least diameter 0 or less", false },
        { """{ "Lots": { "a": { "Nominal": "90 mm", "Plus": "1 mm", "Minus": "-1 mm" } } }""", "Lots.a.Minus: is \"-1 mm\"", true },
        { """{ "Lots": { "a": { "OutOfRound": "0 mm" } } }""", "Lots.a.OutOfRound: is \"0 mm\"", false },
        { """{ "Lots": { "a": { "Other": 5 } } }""", "Lots.a.Other: is not a key", true },
        { """[]""", "holds an array; an object", true },
    };

    public static TheoryData<string> Sound =>
    [
        "{}",
        """{ "Listen": {} }""",
        """{ "Listen": { "Grpc": "[::1]:0", "Line": "127.1.2.3:65535" } }""",
        """{ "Freshness": "00:00:01" }""",
        """{ "Freshness": "7.12:00:00" }""",
        """{ "Freshness": "366.00:00:00" }""",
        """{ "Clients": [ { "Name": "a", "From": [ "::1", "127.0.0.0/8", "::/0", "127.0.0.1" ], "Roles": [], "Fixtures": [ "a", "*" ],"""
        + """ "Form": "named", "Connections": 5, "Rate": 9, "Watches": 64 } ] }""",
        """{ "Limits": { "Connections": 10, "Pipelined": 1, "FirstLine": "00:00:01", "Line": "00:00:01", "Idle": "1.00:00:00", "Reply": "00:01:00" } }""",
        """{ "Listen": { "Line": "0.0.0.0:28611" } }""",
        """{ "Listen": { "Line": "[::]:28611" } }""",
        """{ "Forms": {} }""",
        """{ "Forms": { "named": { "Decimals": 9, "Unit": "mm" }, "short": { "LongestTag": 8 }, "f": { "Ok": "1;{serial};{bx};{by};{bz}#","""
        + """ "Refused": "0;{number}", "Done": "1#", "Width": 12, "LineEnd": "cr", "BareUnit": "in", "Longest": 80 } } }""",
        """{ "Lots": { "a": {}, "b": { "OutOfRound": "0.1 mm" }, "c": { "Nominal": "3.5 in", "Tolerance": "ASTM A29" },"""
        + """ "d": { "Nominal": "90mm", "Plus": "0 mm", "Minus": "1mm" } } }""",
        """{ "Lots": { "a": { "Nominal": "25 mm", "Tolerance": "js5" }, "b": { "Nominal": "25 mm", "Tolerance": "k16" },"""
        + """ "c": { "Nominal": "25 mm", "Tolerance": "EN10278 h12", "OutOfRound": "0.1 mm" }, "d": { "Nominal": "25 mm","""
        + """ "Tolerance": "BS 970 hot rolled" } } }""",
        """{ "Gauges": { "a": {}, "b": { "Unit": "in", "Agreement": "0.1mm" } } }""",
        """{ "Listen": { "Page": "none" } }""",
        """{ "Listen": { "Page": "[::]:28612" }, "Clients": [ { "Name": "tablet", "From": [ "10.0.0.7" ], "Roles": [], "Pages": "by-address" } ] }""",
    ];

    [Fact]
    public void The_demo_configuration_is_read_without_faults()
    {
        var settings = Good(Path.Combine(Repository.Config, "stockseat.json"));

        Assert.Equal(
            ("127.0.0.1:28610", "127.0.0.1:28611", "127.0.0.1:28612"), (settings.Grpc.ToString(), settings.Line.ToString(), settings.Page?.ToString()));
        Assert.Equal((Repository.Fixtures, Path.Combine(Repository.Root, "data")), (settings.Fixtures.Folder, settings.Ledger.Data));
        Assert.Equal((FirstAdoption.Automatic, TimeSpan.FromHours(8)), (settings.Fixtures.FirstAdoption, settings.Freshness));
        Assert.Equal([("lathe-2", "short", Roles.Locate), ("bench", "named", Roles.All)], settings.Clients.Select(c => (c.Name, c.Form.Name, c.Roles)));
        Assert.Equal(("pinbed-1", null), (Assert.Single(settings.Clients[0].Fixtures!), settings.Clients[1].Fixtures));
        Assert.Equal(0.0001, settings.Gauges["bench-2"].Terms.AgreementMetres!.Value, 1e-15);
    }

    [Fact]
    public void The_demo_configuration_passes_the_schema() => Assert.True(Passes(File.ReadAllText(Path.Combine(Repository.Config, "stockseat.json"))));

    [Fact]
    public void Every_object_of_the_schema_is_closed_and_every_key_has_a_description()
    {
        var root = JsonNode.Parse(File.ReadAllText(Path.Combine(Repository.Config, "stockseat.schema.json")))!;
        var objects = Objects(root).ToList();
        var keys = objects.SelectMany(o => o["properties"]?.AsObject() ?? []).ToList();

        Assert.True(keys.Count > 15, $"only {keys.Count} keys");
        Assert.Empty(objects.Where(o => o["additionalProperties"] is null).Select(o => o.GetPath()));
        Assert.Empty(keys.Where(k => k.Value!["description"] is null).Select(k => k.Value!.GetPath()));
    }

    [Fact]
    public void Without_a_file_the_defaults_apply()
    {
        var settings = SettingsReader.Read(new(null), Environment()).Settings!;

        Assert.Equal((FirstAdoption.Manual, TimeSpan.FromHours(8)), (settings.Fixtures.FirstAdoption, settings.Freshness));
        Assert.Equal(Path.GetFullPath("data"), settings.Ledger.Data);
        Assert.Equal("local", settings.Clients.Single().Name);
        Assert.All(settings.Sources, s => Assert.Equal("default", s.Source));
    }

    [Theory]
    [MemberData(nameof(Faulty))]
    public void A_fault_is_reported_with_its_place_and_value(string text, string fault, bool schemaSees)
    {
        var file = Write(text);

        var reading = SettingsReader.Read(new(file), Environment());

        Assert.Null(reading.Settings);
        var told = Assert.Single(reading.Faults);
        Assert.StartsWith($"{file}: ", told, StringComparison.Ordinal);
        Assert.Contains(fault, told, StringComparison.Ordinal);
        Assert.Equal(!schemaSees, Passes(text));
    }

    [Theory]
    [MemberData(nameof(Sound))]
    public void Sound_settings_are_read_and_pass_the_schema(string text)
    {
        Good(Write(text));

        Assert.True(Passes(text));
    }

    [Fact]
    public void All_faults_are_reported_at_once()
    {
        var file = Write("""
            { "Listen": { "Grpc": "x", "Line": "0.0.0.0" }, "Freshness": "x", "FirstAdoption": "x", "Extra": 1,
              "Clients": [ { "Name": "", "From": [ "x" ], "Roles": [] } ], "Gauges": { "g": { "Unit": "yd", "More": 1 } },
              "Lots": { "l": { "Tolerance": "h11", "Plus": "1 mm" }, "m": { "Nominal": "90 mm", "Tolerance": "x" } } }
            """);

        var faults = SettingsReader.Read(new(file), Environment(("STOCKSEAT_DATUM", "x"))).Faults;

        string[] places = ["Listen:Grpc", "Listen:Line", "Freshness", "FirstAdoption", "Extra", "Clients[0].Name", "Clients[0].From[0]", "Gauges.g.Unit",
            "Gauges.g.More", "Lots.l.Tolerance", "Lots.l.Plus", "Lots.l.Tolerance", "Lots.m.Tolerance", "STOCKSEAT_DATUM"];
        Assert.Equal(places.Order(StringComparer.Ordinal), faults.Select(f => f[(file.Length + 2)..].Split(": ")[0]).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void The_order_is_command_line_then_environment_then_file_then_default()
    {
        var file = Write("""{ "Listen": { "Grpc": "127.0.0.1:1", "Line": "127.0.0.1:1" }, "Freshness": "01:00:00" }""");
        var environment = Environment(("STOCKSEAT_LISTEN_GRPC", "127.0.0.1:2"), ("STOCKSEAT_LISTEN_LINE", "127.0.0.1:2"), ("OTHER", "x"));

        var settings = SettingsReader.Read(new(file, Grpc: "127.0.0.1:3"), environment).Settings!;

        Assert.Equal((3, 2, TimeSpan.FromHours(1)), (settings.Grpc.Port, settings.Line.Port, settings.Freshness));
        var sources = settings.Sources.ToDictionary(s => s.Key);
        Assert.Equal(new("Listen:Grpc", "127.0.0.1:3", "command line"), sources["Listen:Grpc"]);
        Assert.Equal(new("Listen:Line", "127.0.0.1:2", "environment"), sources["Listen:Line"]);
        Assert.Equal(new("Freshness", "01:00:00", "file"), sources["Freshness"]);
        Assert.Equal(new("FirstAdoption", "manual", "default"), sources["FirstAdoption"]);
    }

    [Fact]
    public void Paths_in_the_file_are_relative_to_it_and_others_to_the_current_folder()
    {
        var file = Write("""{ "Fixtures": "sub/fixtures", "Data": "sub/data" }""");

        Assert.Equal((Path.Combine(_folder, "sub", "fixtures"), Path.Combine(_folder, "sub", "data")), (Good(file).Fixtures.Folder, Good(file).Ledger.Data));
        Assert.Equal(Path.GetFullPath("elsewhere"), SettingsReader.Read(new(file, Data: "elsewhere"), Environment()).Settings!.Ledger.Data);
        Assert.Equal(Path.GetFullPath("elsewhere"), SettingsReader.Read(new(file), Environment(("STOCKSEAT_DATA", "elsewhere"))).Settings!.Ledger.Data);
    }

    [Theory]
    [InlineData("STOCKSEAT_DATUM", "x", "STOCKSEAT_DATUM: is not a variable of this service")]
    [InlineData("STOCKSEAT_CLIENTS", "[]", "STOCKSEAT_CLIENTS: is not a variable of this service")]
    [InlineData("STOCKSEAT_DATA", "", "Data: ")]
    [InlineData("STOCKSEAT_LISTEN_GRPC", "", "Listen:Grpc: is \"\"")]
    [InlineData("STOCKSEAT_FRESHNESS", "8", "Freshness: is \"8\"")]
    public void A_variable_that_is_wrong_is_a_fault(string name, string value, string fault)
    {
        var told = Assert.Single(SettingsReader.Read(new(null), Environment((name, value))).Faults);

        Assert.Contains(fault, told, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{ \"Data\": ")]
    [InlineData("")]
    [InlineData("{ \"Data\": \"\\ud800\" }")]
    public void A_file_that_is_not_JSON_is_a_fault(string text) => Assert.Single(SettingsReader.Read(new(Write(text)), Environment()).Faults);

    [Fact]
    public void A_file_that_does_not_exist_is_a_fault() =>
        Assert.Contains("name the file with --config", Assert.Single(SettingsReader.Read(new(Path.Combine(_folder, "none.json")), Environment()).Faults),
            StringComparison.Ordinal);

    [Fact]
    public void Ranges_and_single_addresses_are_read()
    {
        var from = Good(Write("""{ "Clients": [ { "Name": "a", "From": [ "127.0.0.2", "::1", "127.1.0.0/16" ], "Roles": [] } ] }""")).Clients[0].From;

        Assert.Equal(["127.0.0.2/32", "::1/128", "127.1.0.0/16"], from.Select(n => n.ToString()));
        Assert.True(from[2].Contains(IPAddress.Parse("127.1.2.3")));
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static Dictionary<string, string> Environment(params (string Name, string Value)[] variables) => variables.ToDictionary(v => v.Name, v => v.Value);

    private static Settings Good(string file)
    {
        var reading = SettingsReader.Read(new(file), Environment());
        Assert.Empty(reading.Faults);
        return reading.Settings!;
    }

    private static IEnumerable<JsonObject> Objects(JsonNode? node) => node switch
    {
        JsonObject o =>
            (o["type"] is JsonValue t && t.GetValueKind() == JsonValueKind.String && t.GetValue<string>() == "object" ? [o] : Array.Empty<JsonObject>())
            .Concat(o.SelectMany(m => Objects(m.Value))),
        JsonArray a => a.SelectMany(Objects),
        _ => [],
    };

    private static bool Passes(string text)
    {
        using var file = JsonDocument.Parse(text, new() { CommentHandling = JsonCommentHandling.Skip });
        return Schema.Evaluate(file.RootElement).IsValid;
    }

    private string Write(string text)
    {
        var path = Path.Combine(_folder, "stockseat.json");
        File.WriteAllText(path, text);
        return path;
    }
}
