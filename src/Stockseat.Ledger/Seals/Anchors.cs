using Microsoft.Data.Sqlite;
using Stockseat.Answers.Events;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Seals;

/// <summary>Finds what to keep outside the machine.</summary>
public static class Anchors
{
    /// <summary>The newest seal; null when there is none, or it can't be read.</summary>
    /// <exception cref="System.Text.Json.JsonException">The body of the newest seal is none.</exception>
    public static Anchor? Newest(SqliteConnection connection) => LedgerQueries.SealRow(connection)?.ReadBody() is SealBody seal ? Anchor.Of(seal) : null;

    /// <summary>The head, unsigned; null in an empty ledger, and in one whose first entry carries no id.</summary>
    /// <exception cref="System.Text.Json.JsonException">The body of the first entry is none.</exception>
    public static Anchor? Head(SqliteConnection connection) =>
        LedgerQueries.LedgerId(connection) is { } ledger
        && LedgerQueries.Newest(connection, 1) is [var head]
            ? new(ledger, head.Serial, Convert.ToHexStringLower(head.Hash), head.At, null, null)
            : null;
}
