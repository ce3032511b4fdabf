using Stockseat.Ledger.Seals;

namespace Stockseat.Service.Examining;

/// <summary>Whether the ledger is sealed, and whether its key can be used.</summary>
internal static class SealKeyCheck
{
    private const string About = "Ledger:SealKey";

    public static IEnumerable<Finding> Look(Examined examined)
    {
        var ledger = examined.Settings.Ledger;
        if (ledger.SealKey is not { } path)
        {
            return
            [
                Finding.Advice(About, "the ledger is not sealed, so whoever can write its file can forge it unseen; install/README.md shows how to make a key"),
            ];
        }

        try
        {
            using var key = SealKey.Load(path, ledger.Data);
            return [Finding.Good(About, $"{path} seals the ledger; its public half is {key.Public.Fingerprint}")];
        }
        catch (InvalidDataException e)
        {
            return [Finding.Fault(About, e.Message)];
        }
    }
}
