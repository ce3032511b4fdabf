namespace Stockseat.Ledger.Rolling;

/// <summary>The steps of a roll, for tests that make them fail: end (before the entry that ends the ledger), make, move, remove, replace, finish.</summary>
public static class RollSteps
{
    /// <summary>Called with the data folder and the step, before the step is done.</summary>
    public static event Action<string, string>? Before;

    internal static void Tell(string data, string step) => Before?.Invoke(data, step);
}
