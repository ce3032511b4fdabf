using System.Net;

namespace Stockseat.Service.Gauges;

/// <summary>A port for the bare lines of a gauge that speaks none of the protocols.</summary>
public sealed record ReadingPortSettings
{
    /// <summary>Its name, which is the client of its pushes in the ledger.</summary>
    public required string Name { get; init; }

    /// <summary>The gauge, one of the configuration.</summary>
    public required string Gauge { get; init; }

    /// <summary>The fixture that is measured for.</summary>
    public required string Fixture { get; init; }

    /// <summary>Where the gauge connects to; null when the service connects to the gauge.</summary>
    public IPEndPoint? Listen { get; init; }

    /// <summary>Where the service connects to; null when the gauge connects to the service.</summary>
    public DnsEndPoint? Connect { get; init; }

    /// <summary>The addresses that the gauge may come from.</summary>
    public IReadOnlyList<IPNetwork> From { get; init; } = [];

    /// <summary>What a line looks like.</summary>
    public required LinePattern Pattern { get; init; }

    /// <summary>The unit of readings whose line states none; null when all do.</summary>
    public string? Unit { get; init; }

    /// <summary>Point or comma.</summary>
    public char DecimalMark { get; init; } = '.';

    /// <summary>What each reading is multiplied by.</summary>
    public decimal Scale { get; init; } = 1;

    /// <summary>How many readings make a measurement.</summary>
    public int Readings { get; init; } = 2;

    /// <summary>From the first of them to the last.</summary>
    public TimeSpan Within { get; init; } = TimeSpan.FromMinutes(1);

    /// <summary>How long after connecting no line is used, since a converter may send old lines that it kept. Zero: every line is used.</summary>
    public TimeSpan Settle { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>Lines that follow each other faster than this are not used, since they come out of a buffer. Zero: every line is used.</summary>
    public TimeSpan Apart { get; init; } = TimeSpan.FromMilliseconds(200);

    /// <summary>The lot, unless the line states one.</summary>
    public string? Lot { get; init; }

    /// <summary>The diameter of the gauge's master.</summary>
    public double? MasterMetres { get; init; }

    /// <summary>
    /// How close a reading has to be to count as a reading of the master: the gauge's limits of error, or its resolution; null when it states neither.
    /// </summary>
    public double? MasterWithinMetres { get; init; }

    /// <summary>Where it listens, or connects to, as configured.</summary>
    public string Endpoint => Connect is not { } to ? Listen!.ToString()
        : to.Host.Contains(':', StringComparison.Ordinal) ? $"[{to.Host}]:{to.Port}"
        : $"{to.Host}:{to.Port}";
}
