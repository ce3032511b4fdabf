namespace Stockseat.Cli.Output.Shapes;

/// <summary>
/// A ledger in the plant store: instants in UTC. What differs is absent where no difference was found, Intact and what follows where it was never verified.
/// </summary>
internal sealed record StoredLedgerShape(
    string Ledger, string? Cell, long First, long Last, string At, string Stored, bool Closed, long? DiffersFrom, string? DiffersSince,
    string? Fixture, long? Revision, bool? Intact, long? VerifiedTo, string? VerifiedAt);
