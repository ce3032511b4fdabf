namespace Stockseat.Service.Ledgers;

/// <summary>How the ledger is kept and sealed.</summary>
/// <param name="Data">Its folder.</param>
/// <param name="SealKey">The file of the key; null: it is not sealed.</param>
/// <param name="SealEvery">The number of entries after which a seal is written.</param>
/// <param name="SealAfter">The time without a new entry after which a seal is written.</param>
/// <param name="RollAt">The size in bytes at which it rolls over; null: never automatically.</param>
/// <param name="SnapshotEvery">The number of entries after which a snapshot is written.</param>
public sealed record LedgerSettings(
    string Data, string? SealKey, int SealEvery, TimeSpan SealAfter, long? RollAt = null, int SnapshotEvery = LedgerSettings.UsualSnapshotEvery)
{
    /// <summary>The <see cref="SealEvery"/> that holds where nothing is stated.</summary>
    public const int UsualEvery = 1000;

    /// <summary>The <see cref="SnapshotEvery"/> where nothing is stated.</summary>
    public const int UsualSnapshotEvery = 1000;

    /// <summary>The smallest <see cref="SnapshotEvery"/>: each snapshot carries all that is in force.</summary>
    public const int LeastSnapshotEvery = 100;

    /// <summary>The largest <see cref="SealEvery"/> and <see cref="SnapshotEvery"/>.</summary>
    public const int MostEvery = 1_000_000;

    /// <summary>The <see cref="SealAfter"/> that holds where nothing is stated.</summary>
    public static readonly TimeSpan UsualAfter = TimeSpan.FromSeconds(30);

    /// <summary>The longest <see cref="SealAfter"/>.</summary>
    public static readonly TimeSpan LongestAfter = TimeSpan.FromDays(1);
}
