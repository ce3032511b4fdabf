namespace Stockseat.Ledger.Verifying;

/// <summary>The closed list of what can be wrong with a ledger, as it is told. The README says what each one means.</summary>
public static class FaultKinds
{
    /// <summary>Rows are missing.</summary>
    public const string Gap = "gap";

    /// <summary>A row carries the body of another row that is there too.</summary>
    public const string Doubled = "doubled";

    /// <summary>A row carries the body that belongs to another serial.</summary>
    public const string Reordered = "reordered";

    /// <summary>A row does not follow from the one before.</summary>
    public const string Edited = "edited";

    /// <summary>A column is no copy of the body.</summary>
    public const string Columns = "columns";

    /// <summary>A body that can't be read, though its hash is right.</summary>
    public const string Body = "body";

    /// <summary>The ledger does not begin as one does.</summary>
    public const string Start = "start";

    /// <summary>The file can't be read, or its pages contradict each other.</summary>
    public const string Damaged = "damaged";

    /// <summary>An index does not hold what the rows say.</summary>
    public const string Index = "index";

    /// <summary>A snapshot does not carry what the entries before it make hold.</summary>
    public const string Snapshot = "snapshot";

    /// <summary>Tables, indexes or triggers are not those that the service makes.</summary>
    public const string Tables = "tables";

    /// <summary>A seal that is not what its key signed, or not of this chain.</summary>
    public const string BadSeal = "bad-seal";

    /// <summary>A seal by a key that nothing vouches for.</summary>
    public const string UnknownKey = "unknown-key";

    /// <summary>No seal, where seals are required.</summary>
    public const string Unsealed = "unsealed";

    /// <summary>Too much after the newest seal, where seals are required.</summary>
    public const string UnsealedTail = "unsealed-tail";

    /// <summary>The entry of an anchor is not there: the tail was cut, or an old copy put back.</summary>
    public const string Cut = "cut";

    /// <summary>The entry of an anchor is there with another hash.</summary>
    public const string Fork = "fork";

    /// <summary>The anchor is another ledger's.</summary>
    public const string OtherLedger = "other-ledger";

    /// <summary>The ledgers of a folder do not name each other as end and beginning.</summary>
    public const string Link = "link";

    /// <summary>More faults than are listed.</summary>
    public const string More = "more";

    /// <summary>All of them.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        Gap, Doubled, Reordered, Edited, Columns, Body, Start, Damaged, Index, Snapshot, Tables,
        BadSeal, UnknownKey, Unsealed, UnsealedTail, Cut, Fork, OtherLedger, Link, More,
    ];
}
