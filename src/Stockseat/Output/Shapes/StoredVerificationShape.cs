namespace Stockseat.Cli.Output.Shapes;

/// <summary>The verdict on a ledger of the plant store, and the first entry that its cell has in another form; absent: none was found.</summary>
internal sealed record StoredVerificationShape(string Ledger, string? Cell, long? DiffersFrom, VerificationShape Verification);
