namespace Stockseat.Fixtures.Adoption;

/// <summary>What happens to a fixture that the ledger has never seen.</summary>
public enum FirstAdoption
{
    /// <summary>Nothing, until somebody adopts a revision.</summary>
    Manual,

    /// <summary>The highest valid revision is adopted at once.</summary>
    Automatic,
}
