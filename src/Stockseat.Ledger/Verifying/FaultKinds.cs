namespace Stockseat.Ledger.Verifying;

/// <summary>The closed list of faults of a ledger, by their names in the output. The README says what each one means.</summary>
public static class FaultKinds
{
    /// <summary>Rows are missing.</summary>
    public const string Gap = "gap";

    /// <summary>A row has the body of another row, which is in its own place too.</summary>
    public const string Doubled = "doubled";

    /// <summary>A row has the body of another serial.</summary>
    public const string Reordered = "reordered";

    /// <summary>A row does not follow from the row before.</summary>
    public const string Edited = "edited";

    /// <summary>A column is not a copy of the body's value.</summary>
    public const string Columns = "columns";

    /// <summary>A body can't be read, though its hash is right.</summary>
    public const string Body = "body";

    /// <summary>The ledger does not begin as a ledger has to.</summary>
    public const string Start = "start";

    /// <summary>The file can't be read, or its pages contradict each other.</summary>
    public const string Damaged = "damaged";

    /// <summary>An index does not agree with the rows.</summary>
    public const string Index = "index";

    /// <summary>A snapshot does not carry the entries that it has to carry.</summary>
    public const string Snapshot = "snapshot";

    /// <summary>Tables, indexes or triggers are not those that the service makes.</summary>
    public const string Tables = "tables";

    /// <summary>A seal has an invalid signature, or does not belong to this chain.</summary>
    public const string BadSeal = "bad-seal";

    /// <summary>A seal was made with a key that is not trusted.</summary>
    public const string UnknownKey = "unknown-key";

    /// <summary>There is no seal, but seals are required.</summary>
    public const string Unsealed = "unsealed";

    /// <summary>There are too many entries after the newest seal, and seals are required.</summary>
    public const string UnsealedTail = "unsealed-tail";

    /// <summary>The entry of an anchor is missing: the tail was cut off, or an old copy was put back.</summary>
    public const string Cut = "cut";

    /// <summary>The entry of an anchor is there, but with another hash.</summary>
    public const string Fork = "fork";

    /// <summary>The anchor belongs to another ledger.</summary>
    public const string OtherLedger = "other-ledger";

    /// <summary>The ledgers of a folder do not name each other at their ends and beginnings.</summary>
    public const string Link = "link";

    /// <summary>There are more faults than are listed.</summary>
    public const string More = "more";

    /// <summary>All kinds of faults.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        Gap, Doubled, Reordered, Edited, Columns, Body, Start, Damaged, Index, Snapshot, Tables,
        BadSeal, UnknownKey, Unsealed, UnsealedTail, Cut, Fork, OtherLedger, Link, More,
    ];
}
