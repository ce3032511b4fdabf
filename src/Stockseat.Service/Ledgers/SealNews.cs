using Microsoft.Extensions.Logging;
using Stockseat.Ledger.Seals;

namespace Stockseat.Service.Ledgers;

/// <summary>Logs at a start how the ledger is sealed.</summary>
internal static class SealNews
{
    /// <param name="logger">The log.</param>
    /// <param name="settings">How it is sealed.</param>
    /// <param name="key">The key's fingerprint; null: it is not sealed.</param>
    /// <param name="found">The newest seal that was found at the start.</param>
    public static void Tell(ILogger logger, LedgerSettings settings, string? key, NewestSeal found)
    {
        if (key is null)
        {
            Log.NotSealed(logger);
            return;
        }

        Log.IsSealed(logger, Short(key), settings.SealEvery, settings.SealAfter);
        if (found is { Key: { } before, Serial: var serial } && before != key)
        {
            Log.KeyChanged(logger, serial, Short(before), Short(key));
        }
    }

    private static string Short(string fingerprint) => fingerprint[..Math.Min(fingerprint.Length, 12)];
}
