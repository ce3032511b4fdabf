namespace Stockseat.Answers.Entries;

/// <summary>The kinds of entries, as the ledger writes them.</summary>
public static class Kinds
{
    public const string ServiceStarted = "service-started";
    public const string ServiceStopped = "service-stopped";
    public const string UncleanStop = "unclean-stop";
    public const string ClockStep = "clock-step";
    public const string RevisionAdopted = "revision-adopted";
    public const string RevisionRejected = "revision-rejected";
    public const string Measurement = "measurement";
    public const string Emptied = "emptied";
    public const string Held = "held";
    public const string Released = "released";
    public const string LotDescribed = "lot-described";
    public const string Seal = "seal";
    public const string Snapshot = "snapshot";
    public const string RolledOver = "rolled-over";
    public const string Recheck = "recheck";
    public const string Answer = "answer";
    public const string Refusal = "refusal";
    public const string Confirmation = "confirmation";
    public const string Done = "done";
    public const string Trial = "trial";
    public const string Note = "note";
    public const string Loaded = "loaded";
    public const string Dropped = "dropped";
    public const string Grid = "grid";
}
