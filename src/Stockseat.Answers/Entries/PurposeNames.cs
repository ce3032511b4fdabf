namespace Stockseat.Answers.Entries;

/// <summary>The names of purposes.</summary>
public static class PurposeNames
{
    /// <summary>Its name in lines and in the ledger.</summary>
    public static string Name(this Purpose purpose) => purpose == Purpose.Place ? "place" : "pick";

    /// <summary>The purpose of a name; null when there is none.</summary>
    public static Purpose? Find(string? name) => name switch
    {
        "pick" => Purpose.Pick,
        "place" => Purpose.Place,
        _ => null,
    };
}
