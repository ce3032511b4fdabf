using System.Net;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Stock;
using Stockseat.Audit.Showing;
using Stockseat.Fixtures.Adoption;
using Stockseat.Plant.Connecting;
using Stockseat.Service.Answering;
using Stockseat.Service.Certificates;
using Stockseat.Service.Clients;
using Stockseat.Service.Gauges;
using Stockseat.Service.Ledgers;
using Stockseat.Service.Lines.Forms;
using Stockseat.Service.Metrics;
using Stockseat.Service.Texts;
using Stockseat.Service.Watching;

namespace Stockseat.Service.Configuration;

/// <summary>The settings of all features together. Paths are absolute.</summary>
public sealed record Settings
{
    /// <summary>Where gRPC listens.</summary>
    public required IPEndPoint Grpc { get; init; }

    /// <summary>Where the line protocol listens.</summary>
    public required IPEndPoint Line { get; init; }

    /// <summary>Where the line protocol listens for TLS; null: nowhere.</summary>
    public IPEndPoint? LineTls { get; init; }

    /// <summary>Where the pages are; null: nowhere.</summary>
    public IPEndPoint? Page { get; init; }

    /// <summary>Where the certificates are; null: no listener has TLS. With it gRPC and the pages always have.</summary>
    public TlsSettings? Tls { get; init; }

    /// <summary>By which names clients may call the service over gRPC and open pages, besides addresses, localhost and its certificate's names.</summary>
    public IReadOnlyList<string> AllowedHosts { get; init; } = [];

    /// <summary>Whether clients may ask for the description of the gRPC services.</summary>
    public bool Reflection { get; init; } = true;

    /// <summary>Where fixtures come from, and what happens to them.</summary>
    public required FixtureSettings Fixtures { get; init; }

    /// <summary>How the ledger is kept and sealed.</summary>
    public required LedgerSettings Ledger { get; init; }

    /// <summary>The plant store to which every entry is sent; null: none.</summary>
    public PlantAddress? Plant { get; init; }

    /// <summary>How long a measurement may be used when its gauge does not say.</summary>
    public required TimeSpan Freshness { get; init; }

    /// <summary>Who may ask, in order; the first that matches counts.</summary>
    public required IReadOnlyList<Client> Clients { get; init; }

    /// <summary>How replies in lines may look, by name; the built-in ones are among them.</summary>
    public required IReadOnlyDictionary<string, Form> Forms { get; init; }

    /// <summary>The limits of connections.</summary>
    public required DoorLimits Limits { get; init; }

    /// <summary>The gauges, by name.</summary>
    public required IReadOnlyDictionary<string, GaugeSettings> Gauges { get; init; }

    /// <summary>The lots, by name.</summary>
    public required IReadOnlyDictionary<string, LotTerms> Lots { get; init; }

    /// <summary>The ports at which bare lines of gauges come in.</summary>
    public IReadOnlyList<ReadingPortSettings> ReadingPorts { get; init; } = [];

    /// <summary>How people are shown lengths, times and pages.</summary>
    public Display Display { get; init; } = Display.Plain;

    /// <summary>Where metrics are pushed.</summary>
    public MetricsSettings Metrics { get; init; } = MetricsSettings.NoPush;

    /// <summary>Each setting as text with its source, in the order of the file.</summary>
    public required IReadOnlyList<SettingSource> Sources { get; init; }

    /// <summary>The parts of gauges and lots that go into asks.</summary>
    public StockTerms Terms => new(Freshness, Gauges.ToDictionary(g => g.Key, g => g.Value.Terms, StringComparer.Ordinal), Lots);
}
