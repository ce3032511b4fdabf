namespace Stockseat.Ledger.Rolling;

/// <summary>The steps of a roll, for tests, which fail there: end (before the entry that ends the ledger), make, move, remove, replace, finish.</summary>
public static class RollSteps
{
    /// <summary>Told the data folder and the step, before it is made.</summary>
    public static event Action<string, string>? Before;

    internal static void Tell(string data, string step) => Before?.Invoke(data, step);
}
