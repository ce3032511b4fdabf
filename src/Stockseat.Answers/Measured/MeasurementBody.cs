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

    /// <summary>The largest reading minus the smallest, in metres; absent with one reading, whose spread nobody knows.</summary>
    public double? Spread { get; init; }

    /// <summary>The unit in which it was sent.</summary>
    public string? Unit { get; init; }

    public string? Gauge { get; init; }

    /// <summary>How far its readings were allowed to spread, in metres; absent when the gauge stated nothing, and their spread was not judged.</summary>
    public double? Agreement { get; init; }

    /// <summary>How good the gauge's readings are; absent when the gauge stated nothing.</summary>
    public GaugeLimits? Limits { get; init; }

    public string? Lot { get; init; }

    /// <summary>What was known of the lot; absent when no lot was named.</summary>
    public LotTerms? LotTerms { get; init; }

    /// <summary>The length of the stock, in metres; absent when it was not measured.</summary>
    public double? Length { get; init; }

    /// <summary>The nest whose blank was measured: column, row; absent: the stock of the whole fixture.</summary>
    public int[]? Nest { get; init; }

    /// <summary>For how many seconds it may be used, counted from its first reading.</summary>
    public required double FreshFor { get; init; }

    /// <summary>The ledger's last entry when its first reading came; absent when the push came straight from its sender.</summary>
    public long? Since { get; init; }

    /// <summary>How many seconds before this entry its first reading came; absent when the push came straight from its sender.</summary>
    public double? Waited { get; init; }
}
