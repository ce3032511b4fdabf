using System.Globalization;
using System.Net;
using Stockseat.Fixtures.Reading;
using Stockseat.Service.Clients;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Gauges;

/// <summary>Reads the ports at which bare lines of gauges come in.</summary>
/// <param name="gauges">The gauges.</param>
/// <param name="clients">The clients, whose names are taken.</param>
/// <param name="values">Reads times, and collects the settings.</param>
internal sealed class ReadingPortsReader(
    IReadOnlyDictionary<string, GaugeSettings> gauges, IReadOnlyList<Client> clients, SettingValues values)
{
    private const double LargestScale = 1e6;
    private static readonly TimeSpan LongestShort = TimeSpan.FromMinutes(1);
    private static readonly Fixtures.Reading.Range Scales = new(1 / LargestScale, LargestScale);
    private static readonly LinePattern None = LinePattern.Parse("(?<reading>[0-9]+)", out _)!;

    public List<ReadingPortSettings> Read(IReadOnlyList<Section>? sections)
    {
        var ports = new List<ReadingPortSettings>();
        foreach (var section in sections ?? [])
        {
            var port = ReadOne(section);
            if (ports.Any(p => p.Name == port.Name) || clients.Any(c => c.Name == port.Name))
            {
                section.Faults.Add(section.At("Name"),
                    $"is \"{port.Name}\", which is also the name of another reading port or of a client; the ledger could not tell them apart");
            }

            values.Sources.Add(new($"ReadingPorts:{ports.Count}", Said(port), "file"));
            ports.Add(port);
        }

        return ports;
    }

    private ReadingPortSettings ReadOne(Section section)
    {
        var name = Name(section, "Name", required: true) ?? "";
        var fixture = section.Text("Fixture", longest: 63) ?? "";
        if (fixture.Length > 0 && !NameText.MayBeFixture(fixture))
        {
            section.Faults.Add(section.At("Fixture"), $"is \"{fixture}\"; a fixture's name was expected");
        }

        var (gaugeName, gauge) = Gauge(section);
        var (listen, connect, from) = Ends(section);
        var pattern = Pattern(section);
        var mark = section.Text("DecimalMark", required: false, longest: 1);
        if (mark is not (null or "." or ","))
        {
            section.Faults.Add(section.At("DecimalMark"), $"is \"{mark}\"; \".\" or \",\" was expected");
        }

        var port = new ReadingPortSettings
        {
            Name = name,
            Gauge = gaugeName,
            Fixture = fixture,
            Listen = listen,
            Connect = connect,
            From = from,
            Pattern = pattern ?? None,
            Unit = Unit(section, gauge, pattern),
            DecimalMark = mark == "," ? ',' : '.',
            Scale = section.Number("Scale", Scales, required: false) is { } scale ? (decimal)scale : 1,
            Readings = section.Whole("Readings", 1, 20, required: false) ?? 2,
            Within = section.Text("Within", required: false) is { } within ? values.Span(section.At("Within"), within) : TimeSpan.FromMinutes(1),
            Settle = Short(section, "Settle", TimeSpan.FromSeconds(1)),
            Apart = Short(section, "Apart", TimeSpan.FromMilliseconds(200)),
            Lot = Name(section, "Lot", required: false),
            MasterMetres = gauge?.MasterMetres,
            MasterWithinMetres = gauge?.Terms.Limits?.LimitsOfError ?? gauge?.Terms.Limits?.Resolution,
        };
        if (port.Readings > 1 && gauge is { Terms.AgreementMetres: null })
        {
            section.Faults.Add(section.At("Readings"),
                $"is {port.Readings}{(section.Has("Readings") ? "" : " unless stated")}, and gauge {gaugeName} states no Agreement by which they "
                + $"could be judged; state it, or one reading");
        }

        if (port.Apart * (port.Readings - 1) >= port.Within)
        {
            section.Faults.Add(
                section.At("Apart"),
                $"is {port.Apart:hh\\:mm\\:ss\\.fff}{(section.Has("Apart") ? "" : " unless stated")}; "
                + $"{port.Readings} readings that far apart do not fit into Within, which is {port.Within:c}: state less, or a longer Within");
        }

        section.Finish();
        return port;
    }

    private (string Name, GaugeSettings? Gauge) Gauge(Section section)
    {
        var name = section.Text("Gauge", longest: NameText.Longest) ?? "";
        if (name.Length > 0 && !gauges.ContainsKey(name))
        {
            section.Faults.Add(section.At("Gauge"),
                $"is \"{name}\"; {(gauges.Count == 0 ? "a gauge of Gauges, which is empty," : $"one of {string.Join(", ", gauges.Keys)}")} was expected");
        }

        return (name, gauges.GetValueOrDefault(name));
    }

    /// <summary>Where it listens, and whom it lets in; or where it connects to.</summary>
    private static (IPEndPoint? Listen, DnsEndPoint? Connect, List<IPNetwork> From) Ends(Section section)
    {
        var (listens, connects) = (section.Has("Listen"), section.Has("Connect"));
        if (listens == connects)
        {
            section.Faults.Add(section.At("Listen"),
                $"and Connect are both {(listens ? "stated" : "missing")}; one of them was expected: Listen for a gauge that connects to the service, "
                + $"Connect for a gauge to which the service connects");
        }

        IPEndPoint? listen = null;
        if (section.Text("Listen", required: false) is { } text && (listen = AddressText.Endpoint(text, out var fault)) is null)
        {
            section.Faults.Add(
                section.At("Listen"),
                $"is \"{text}\"; an address and a port such as 127.0.0.1:28620 was expected, port 0 takes a free one; {fault}");
        }

        List<IPNetwork> from = section.Has("From")
            ? [.. section.Texts("From", 1, 100).Select((t, i) => ClientsReader.Network(section, i, t)).OfType<IPNetwork>()]
            : [IPNetwork.Parse("127.0.0.0/8"), IPNetwork.Parse("::1/128")];
        if (listen is not null && !IPAddress.IsLoopback(listen.Address) && !section.Has("From"))
        {
            section.Faults.Add(section.At("From"),
                $"is missing; the addresses that the gauge comes from were expected, since {listen} can be reached from elsewhere");
        }
        else if (connects && !listens && section.Has("From"))
        {
            section.Faults.Add(section.At("From"), "belongs to Listen; with Connect the service itself connects; leave From out");
        }

        return (listen, section.Text("Connect", required: false) is { } to ? Connect(section, to) : null, from);
    }

    private static DnsEndPoint? Connect(Section section, string text)
    {
        if (AddressText.Host(text, out var fault) is { } to)
        {
            return to;
        }

        section.Faults.Add(section.At("Connect"), $"is \"{text}\"; a host's name or address and a port such as 192.0.2.7:4001 was expected; {fault}");
        return null;
    }

    private static LinePattern? Pattern(Section section)
    {
        if (section.Text("Pattern") is not { } text)
        {
            return null;
        }

        var pattern = LinePattern.Parse(text, out var fault);
        if (fault is not null)
        {
            section.Faults.Add(section.At("Pattern"), $"\"{text}\" {fault}");
        }

        return pattern;
    }

    private static string? Unit(Section section, GaugeSettings? gauge, LinePattern? pattern)
    {
        var unit = UnitText.Read(section);
        if ((unit ?? gauge?.Unit) is null && gauge is not null && pattern is { HasUnit: false })
        {
            section.Faults.Add(section.At("Unit"), $"is missing; {UnitText.Expected} was expected, here or at the gauge, or a group unit in the pattern");
        }

        return unit ?? gauge?.Unit;
    }

    /// <summary>A short time; zero switches its function off.</summary>
    private static TimeSpan Short(Section section, string key, TimeSpan usual)
    {
        if (section.Text(key, required: false) is not { } text)
        {
            return usual;
        }

        if (TimeSpan.TryParseExact(text, [@"hh\:mm\:ss", @"hh\:mm\:ss\.fff"], CultureInfo.InvariantCulture, out var span) && span <= LongestShort)
        {
            return span;
        }

        section.Faults.Add(
            section.At(key),
            $"is \"{text}\"; a time such as \"{usual.ToString(@"hh\:mm\:ss\.fff", CultureInfo.InvariantCulture)}\", from 00:00:00 (off) to "
                + $"{LongestShort:c}, was expected");
        return usual;
    }

    private static string? Name(Section section, string key, bool required)
    {
        var word = section.Text(key, required, longest: 400);
        if (word is not null && !NameText.IsName(word))
        {
            section.Faults.Add(section.At(key), $"is \"{word}\"; {NameText.Expected} was expected");
        }

        return word;
    }

    private static string Said(ReadingPortSettings p) => string.Create(
        CultureInfo.InvariantCulture,
        $"{p.Name} of gauge {p.Gauge} for {p.Fixture}, {(p.Connect is not null ? "connects to" : "listens on")} "
            + $"{(p.Connect is null && p.Listen is null ? "nothing" : p.Endpoint)}{(p.Connect is null ? $" from {string.Join(", ", p.From)}" : "")}; "
        + $"pattern {p.Pattern.Text}, unit {p.Unit ?? "of the line"}, decimal mark {p.DecimalMark}, scale {p.Scale}, {p.Readings} readings within "
        + $"{p.Within:c}, "
        + $"settle {p.Settle:hh\\:mm\\:ss\\.fff}, apart {p.Apart:hh\\:mm\\:ss\\.fff}, lot {p.Lot ?? "not stated"}");
}
