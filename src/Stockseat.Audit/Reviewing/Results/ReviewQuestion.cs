namespace Stockseat.Audit.Reviewing.Results;

/// <summary>Which minutes are reviewed.</summary>
public sealed record ReviewQuestion
{
    /// <summary>How long before the instant, unless stated.</summary>
    public static readonly TimeSpan UsualBefore = TimeSpan.FromMinutes(10);

    /// <summary>How long after it, unless stated.</summary>
    public static readonly TimeSpan UsualAfter = TimeSpan.FromMinutes(2);

    /// <summary>How far a shift may move when no other stock was reported, in metres, unless stated. Our own choice.</summary>
    public const double UsualJumpMetres = 0.001;

    /// <summary>The instant; null: that of <see cref="Serial"/>.</summary>
    public DateTimeOffset? At { get; init; }

    /// <summary>The entry whose instant it is; null: <see cref="At"/> is stated.</summary>
    public long? Serial { get; init; }

    /// <summary>How long before it.</summary>
    public TimeSpan Before { get; init; } = UsualBefore;

    /// <summary>How long after it.</summary>
    public TimeSpan After { get; init; } = UsualAfter;

    /// <summary>Only what concerns this fixture; null: all.</summary>
    public string? Fixture { get; init; }

    /// <summary>Only what concerns the fixtures that clients of this cell asked for, or that are measured for them; null: all.</summary>
    public string? Cell { get; init; }

    /// <summary>How far a shift may move when no other stock was reported, in metres.</summary>
    public double JumpMetres { get; init; } = UsualJumpMetres;
}
