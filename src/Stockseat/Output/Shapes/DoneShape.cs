namespace Stockseat.Cli.Output.Shapes;

/// <summary>What was recorded: the entry, and what it is about.</summary>
internal sealed record DoneShape(long Serial)
{
    public string? Fixture { get; init; }

    public int? Revision { get; init; }

    public string? Digest { get; init; }

    /// <summary>How many holds are left.</summary>
    public int? Left { get; init; }

    /// <summary>The answer that is confirmed.</summary>
    public long? Confirms { get; init; }

    /// <summary>The answer that was carried out.</summary>
    public long? Done { get; init; }

    /// <summary>The answer whose move was not carried out.</summary>
    public long? Dropped { get; init; }

    /// <summary>How many nests have stock.</summary>
    public int? Count { get; init; }

    /// <summary>The load that was replaced.</summary>
    public long? Replaces { get; init; }

    /// <summary>The answer of that load of which nobody said whether its move was carried out.</summary>
    public long? Unfinished { get; init; }

    /// <summary>The ledger that goes on.</summary>
    public string? Next { get; init; }

    public double? Diameter { get; init; }

    public string? Unit { get; init; }

    /// <summary>How many readings a measurement has.</summary>
    public int? Readings { get; init; }

    public double? Spread { get; init; }
}
