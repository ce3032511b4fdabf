using System.Net;
using Stockseat.Fixtures.Files;
using Stockseat.Fixtures.Reading;
using Stockseat.Service.Certificates;
using Stockseat.Service.Clients;
using Stockseat.Service.Forwarding;
using Stockseat.Service.Gauges;
using Stockseat.Service.Ledgers;
using Stockseat.Service.Lines.Forms;
using Stockseat.Service.Lots;
using Stockseat.Service.Metrics;
using Stockseat.Service.Showing;
using Stockseat.Service.Texts;
using Stockseat.Service.Watching;

namespace Stockseat.Service.Configuration;

/// <summary>
/// Reads the configuration: command line over environment over file over defaults; all faults at once; unknown keys are faults. Each section is read
/// by the feature that it belongs to.
/// </summary>
public sealed class SettingsReader
{
    /// <summary>The prefix of names in the environment: STOCKSEAT_DATA, STOCKSEAT_LISTEN_GRPC and so on.</summary>
    public const string EnvironmentPrefix = SettingValues.EnvironmentPrefix;

    /// <summary>The largest file: 1,000 clients with 100 forms and 100 reading ports need less than 1 MB.</summary>
    private const int LongestFile = 16 << 20;

    private const string TlsFirst = "state one under Tls (stockseat certificate makes one)";

    private const string WithoutTls = $"without a certificate gRPC may only listen on its own machine; {TlsFirst}, or let only lines listen elsewhere";

    private readonly Overrides _overrides;
    private readonly SettingValues _values;

    private SettingsReader(Overrides overrides, IReadOnlyDictionary<string, string> environment) =>
        (_overrides, _values) = (overrides, new(overrides.File, environment));

    /// <summary>Reads.</summary>
    /// <param name="overrides">What the command line says.</param>
    /// <param name="environment">The environment's variables.</param>
    public static SettingsReading Read(Overrides overrides, IReadOnlyDictionary<string, string> environment) =>
        new SettingsReader(overrides, environment).Read();

    private SettingsReading Read()
    {
        var root = Open();
        if (root is null && !_values.Faults.None)
        {
            return new(null, _values.Faults.All);
        }

        var tls = TlsSettingsReader.Read(_values, root?.Object(TlsSettingsReader.Name, required: false));
        var listen = root?.Object("Listen", required: false);
        var grpc = _values.Endpoint(listen, "Grpc", "Listen:Grpc", "127.0.0.1:28610", _overrides.Grpc, tls is null ? WithoutTls : null);
        var line = _values.Endpoint(listen, "Line", "Listen:Line", "127.0.0.1:28611", _overrides.Line);
        var lineTls = _values.OtherEndpoint(listen, "LineTls", "Listen:LineTls");
        if (lineTls is not null && tls is null)
        {
            _values.Faults.Add("Listen:LineTls", $"is \"{lineTls}\", but there is no certificate; {TlsFirst}");
        }

        var page = _values.EndpointOrNone(listen, "Page", "Listen:Page", "127.0.0.1:28612");
        listen?.Finish();
        var hosts = _values.Hosts(root);
        var reflection = _values.Flag(root, "Reflection", unstated: grpc is null || IPAddress.IsLoopback(grpc.Address));
        var folder = _values.Folder(root, "Fixtures", "fixtures");
        var data = _values.Folder(root, "Data", "data", _overrides.Data);
        var fixtures = FixtureSettingsReader.Read(_values, root, folder);
        var freshness = _values.Span(root, "Freshness", "Freshness", TimeSpan.FromHours(8));
        var gauges = new GaugesReader(_values, freshness).Read(root?.Object("Gauges", required: false));
        var lots = new LotsReader(_values.Sources).Read(root?.Object("Lots", required: false));
        var forms = new FormsReader(_values.Sources).Read(root?.Object("Forms", required: false));
        var clients = new ClientsReader(forms, tls, _values.Sources).Read(root?.Objects("Clients", required: false, 1, 1000));
        if (page is not null && !IPAddress.IsLoopback(page.Address) && tls is null && !clients.Exists(c => c.PagesByAddress))
        {
            _values.Faults.Add("Listen:Page", $"is \"{page}\", but there is no certificate, and no client may open pages by its address alone; {TlsFirst}, or "
                + "state \"Pages\": \"by-address\" in the client's entry");
        }

        var limits = DoorLimitsReader.Read(_values, root?.Object("Limits", required: false));
        var ports = new ReadingPortsReader(gauges, clients, _values).Read(root?.Objects("ReadingPorts", required: false, 1, 100));
        var ledger = LedgerSettingsReader.Read(_values, root?.Object("Ledger", required: false), data);
        var plant = PlantSettingsReader.Read(_values, root?.Object(PlantSettingsReader.Name, required: false));
        var display = DisplayReader.Read(_values, root?.Object(DisplayReader.Section, required: false), _overrides.Display);
        var metrics = MetricsSettingsReader.Read(_values, root?.Object(MetricsSettingsReader.Section, required: false));
        root?.Finish("$schema");
        _values.RefuseUnknown();
        return !_values.Faults.None ? new(null, _values.Faults.All) : new(
            new()
            {
                Grpc = grpc!,
                Line = line!,
                LineTls = lineTls,
                Page = page,
                Tls = tls,
                AllowedHosts = hosts,
                Reflection = reflection,
                Fixtures = fixtures,
                Ledger = ledger,
                Plant = plant,
                Freshness = freshness,
                Clients = clients,
                Forms = forms,
                Limits = limits,
                Gauges = gauges,
                Lots = lots,
                ReadingPorts = ports,
                Display = display,
                Metrics = metrics,
                Sources = _values.Sources,
            },
            []);
    }

    private Section? Open()
    {
        if (_overrides.File is null)
        {
            return null;
        }

        try
        {
            return Section.Parse(RegularFile.Read(_overrides.File, LongestFile), _values.Faults);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            _values.Faults.Add("", $"{RegularFile.What(_overrides.File, e)}; name the file with --config");
            return null;
        }
    }
}
