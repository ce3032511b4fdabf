using Stockseat.Answers.Reasons;

namespace Stockseat.Answers.Entries;

/// <summary>How purposes are called.</summary>
public static class PurposeNames
{
    /// <summary>Its name in lines and in the ledger.</summary>
    public static string Name(this Purpose purpose) => purpose == Purpose.Place ? "place" : "pick";
}
