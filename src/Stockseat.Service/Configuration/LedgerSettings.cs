namespace Stockseat.Service.Configuration;

/// <summary>How the ledger is sealed.</summary>
/// <param name="SealKey">The file of the key; null: it is not sealed.</param>
/// <param name="SealEvery">After so many entries.</param>
/// <param name="SealAfter">After so long without a new one.</param>
public sealed record LedgerSettings(string? SealKey, int SealEvery, TimeSpan SealAfter)
{
    /// <summary>What holds where nothing is stated.</summary>
    public static LedgerSettings Usual { get; } = new(null, 1000, TimeSpan.FromSeconds(30));

    /// <summary>The largest <see cref="SealEvery"/>.</summary>
    public const int MostEvery = 1_000_000;

    /// <summary>The longest <see cref="SealAfter"/>.</summary>
    public static readonly TimeSpan LongestAfter = TimeSpan.FromDays(1);
}
