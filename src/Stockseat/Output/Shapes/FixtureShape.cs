namespace Stockseat.Cli.Output.Shapes;

/// <summary>A fixture with its state; of one that the service does not know, its reading ports alone.</summary>
internal sealed record FixtureShape(string Fixture, bool Answers)
{
    public int? Revision { get; init; }

    public string? Digest { get; init; }

    public string? Refused { get; init; }

    public string? Text { get; init; }

    public IEnumerable<HoldShape>? Holds { get; init; }

    public RecheckShape? Missed { get; init; }

    /// <summary>What is lacking until the revision in force is proven, in words; absent when it is proven.</summary>
    public IEnumerable<string>? Unproven { get; init; }

    public IEnumerable<int>? Waiting { get; init; }

    public IEnumerable<string>? Faults { get; init; }

    public long? Measurement { get; init; }

    public double? Measured { get; init; }

    public double? Age { get; init; }

    public string? Lot { get; init; }

    public LoadShape? Load { get; init; }

    public IEnumerable<ReadingPortShape>? Ports { get; init; }
}

/// <summary>What stands in the nests.</summary>
internal sealed record LoadShape(long Serial, string? Lot, int Count, int Left, int[]? Next, long? Unfinished, int[]? UnfinishedNest);

internal sealed record HoldShape(string By, string Why, long Serial, string At);

internal sealed record ReadingPortShape(
    string Name, string Gauge, string Endpoint, string State, string Since, IReadOnlyDictionary<string, long> Counts, string? LastCause);
