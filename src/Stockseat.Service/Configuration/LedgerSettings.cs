namespace Stockseat.Service.Configuration;

/// <summary>How the ledger is kept and sealed.</summary>
/// <param name="SealKey">The file of the key; null: it is not sealed.</param>
/// <param name="SealEvery">After so many entries.</param>
/// <param name="SealAfter">After so long without a new one.</param>
/// <param name="RollAt">The size in bytes at which it rolls over; null: never by itself.</param>
/// <param name="SnapshotEvery">After how many entries what holds is written.</param>
public sealed record LedgerSettings(string? SealKey, int SealEvery, TimeSpan SealAfter,
    long? RollAt = null, int SnapshotEvery = LedgerSettings.UsualSnapshotEvery)
{
    /// <summary>What holds where nothing is stated.</summary>
    public static LedgerSettings Usual { get; } = new(null, 1000, TimeSpan.FromSeconds(30), null);

    /// <summary>The <see cref="SnapshotEvery"/> where nothing is stated.</summary>
    public const int UsualSnapshotEvery = 1000;

    /// <summary>The smallest <see cref="SnapshotEvery"/>: each carries all that holds.</summary>
    public const int LeastSnapshotEvery = 100;

    /// <summary>The largest <see cref="SealEvery"/> and <see cref="SnapshotEvery"/>.</summary>
    public const int MostEvery = 1_000_000;

    /// <summary>The longest <see cref="SealAfter"/>.</summary>
    public static readonly TimeSpan LongestAfter = TimeSpan.FromDays(1);
}
