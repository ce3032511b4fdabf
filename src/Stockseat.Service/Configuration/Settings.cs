using System.Net;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Stock;
using Stockseat.Fixtures.Adoption;
using Stockseat.Service.Clients;
using Stockseat.Service.Lines.Forms;

namespace Stockseat.Service.Configuration;

/// <summary>The merged settings. Paths are absolute.</summary>
public sealed record Settings
{
    /// <summary>Where gRPC listens.</summary>
    public required IPEndPoint Grpc { get; init; }

    /// <summary>Where the line protocol listens.</summary>
    public required IPEndPoint Line { get; init; }

    /// <summary>The folder of the fixtures' folders.</summary>
    public required string Fixtures { get; init; }

    /// <summary>The folder of the ledger.</summary>
    public required string Data { get; init; }

    /// <summary>What happens to a fixture that the ledger has never seen.</summary>
    public required FirstAdoption FirstAdoption { get; init; }

    /// <summary>Whether a recheck that missed refuses asks until another revision is adopted.</summary>
    public bool RefuseAfterMiss { get; init; }

    /// <summary>For how long a measurement may be used whose gauge says nothing else.</summary>
    public required TimeSpan Freshness { get; init; }

    /// <summary>Who may ask, in order; the first that matches counts.</summary>
    public required IReadOnlyList<Client> Clients { get; init; }

    /// <summary>How replies in lines may look, by name; the built-in ones are among them.</summary>
    public required IReadOnlyDictionary<string, Form> Forms { get; init; }

    /// <summary>What a connection may cost.</summary>
    public required DoorLimits Limits { get; init; }

    /// <summary>The gauges, by name.</summary>
    public required IReadOnlyDictionary<string, GaugeSettings> Gauges { get; init; }

    /// <summary>The lots, by name.</summary>
    public required IReadOnlyDictionary<string, LotTerms> Lots { get; init; }

    /// <summary>The ports at which bare lines of gauges come in.</summary>
    public IReadOnlyList<ReadingPortSettings> ReadingPorts { get; init; } = [];

    /// <summary>How the ledger is sealed.</summary>
    public LedgerSettings Ledger { get; init; } = LedgerSettings.Usual;

    /// <summary>Each setting as text with its source, in the order of the file.</summary>
    public required IReadOnlyList<SettingSource> Sources { get; init; }
}

/// <summary>A gauge.</summary>
/// <param name="Terms">What it promises.</param>
/// <param name="Unit">The unit of its bare numbers; null: not stated.</param>
/// <param name="MasterMetres">The diameter of the master that it is set with; null: not stated.</param>
public sealed record GaugeSettings(GaugeTerms Terms, string? Unit, double? MasterMetres);

/// <summary>One setting and where it comes from.</summary>
/// <param name="Key">Its name, with colons between levels.</param>
/// <param name="Value">Its value as text.</param>
/// <param name="Source">command line, environment, file or default.</param>
public sealed record SettingSource(string Key, string Value, string Source);

/// <summary>What the command line may set.</summary>
/// <param name="File">The configuration file; null: none, the defaults.</param>
/// <param name="Data">The data folder, relative to the current folder.</param>
/// <param name="Grpc">Where gRPC listens.</param>
/// <param name="Line">Where the line protocol listens.</param>
public sealed record Overrides(string? File, string? Data = null, string? Grpc = null, string? Line = null);

/// <summary>The settings, or all faults of the configuration.</summary>
public sealed record SettingsReading(Settings? Settings, IReadOnlyList<string> Faults);
