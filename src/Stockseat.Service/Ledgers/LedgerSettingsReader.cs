using System.Globalization;
using Stockseat.Fixtures.Reading;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Ledgers;

/// <summary>Reads how the ledger is kept and sealed.</summary>
internal static class LedgerSettingsReader
{
    public static LedgerSettings Read(SettingValues values, Section? section, string data)
    {
        var (key, source) = values.Text(section, "SealKey", "Ledger:SealKey", "none: the ledger is not sealed");
        var file = source == "default" ? null : values.Resolve("Ledger:SealKey", key, source, "file");
        var every = values.Whole(section, "SealEvery", "Ledger:SealEvery", LedgerSettings.UsualEvery, LedgerSettings.MostEvery);
        var snapshots = values.Whole(
            section, "SnapshotEvery", "Ledger:SnapshotEvery", LedgerSettings.UsualSnapshotEvery, LedgerSettings.MostEvery, LedgerSettings.LeastSnapshotEvery);
        var after = values.Span(section, "SealAfter", "Ledger:SealAfter", LedgerSettings.UsualAfter);
        if (after > LedgerSettings.LongestAfter)
        {
            values.Faults.Add(
                "Ledger:SealAfter", $"is \"{after.ToString("c", CultureInfo.InvariantCulture)}\"; a day (\"1.00:00:00\") at most was expected");
        }

        var (rollAt, _) = values.Text(section, "RollAt", "Ledger:RollAt", SizeText.Never);
        if (!SizeText.TryRead(rollAt, out var bytes))
        {
            values.Faults.Add("Ledger:RollAt", $"is \"{rollAt}\"; {SizeText.Expected} was expected");
        }

        section?.Finish();
        return new(data, file, every, after, bytes, snapshots);
    }
}
