namespace Stockseat.Cli.Output.Shapes;

/// <summary>A ledger in the plant store: instants in UTC; what differs is absent where no difference was found.</summary>
internal sealed record StoredLedgerShape(
    string Ledger, string? Cell, long First, long Last, string At, string Stored, bool Closed, long? DiffersFrom, string? DiffersSince);
