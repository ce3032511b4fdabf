using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Measured;

/// <summary>A diameter that a gauge station pushed.</summary>
public sealed record MeasurementBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Measurement;

    /// <summary>The mean of the readings, in metres.</summary>
    public required double Diameter { get; init; }

    /// <summary>The readings, in metres.</summary>
    public required IReadOnlyList<double> Readings { get; init; }

    /// <summary>The largest reading less the smallest, in metres; absent with one reading, whose spread nobody knows.</summary>
    public double? Spread { get; init; }

    /// <summary>The unit that was sent.</summary>
    public string? Unit { get; init; }

    public string? Gauge { get; init; }

    /// <summary>How far its readings might spread, in metres; absent when the gauge stated nothing, and they were not judged.</summary>
    public double? Agreement { get; init; }

    /// <summary>How sure the gauge's readings are; absent when it stated nothing.</summary>
    public GaugeLimits? Limits { get; init; }

    public string? Lot { get; init; }

    /// <summary>What was known of the lot; absent when none was named.</summary>
    public LotTerms? LotTerms { get; init; }

    /// <summary>For how many seconds it may be used, counted from its first reading.</summary>
    public required double FreshFor { get; init; }

    /// <summary>The ledger's last entry when its first reading came; absent when it came straight from its sender.</summary>
    public long? Since { get; init; }

    /// <summary>How many seconds its first reading came before this entry; absent when it came straight from its sender.</summary>
    public double? Waited { get; init; }
}
