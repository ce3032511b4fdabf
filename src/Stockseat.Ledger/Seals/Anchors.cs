using Microsoft.Data.Sqlite;
using Stockseat.Answers.Events;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Seals;

/// <summary>Finds the anchor to keep outside the machine.</summary>
public static class Anchors
{
    /// <summary>The anchor of the newest seal; null when there is no seal, or when it can't be read.</summary>
    /// <exception cref="System.Text.Json.JsonException">The body of the newest seal can't be read.</exception>
    public static Anchor? Newest(SqliteConnection connection) => LedgerQueries.SealRow(connection)?.ReadBody() is SealBody seal ? Anchor.Of(seal) : null;

    /// <summary>The anchor of the last entry, unsigned; null in an empty ledger, and when the first entry has no ledger id.</summary>
    /// <exception cref="System.Text.Json.JsonException">The body of the first entry can't be read.</exception>
    public static Anchor? Head(SqliteConnection connection) =>
        LedgerQueries.LedgerId(connection) is { } ledger
        && LedgerQueries.Newest(connection, 1) is [var head]
            ? new(ledger, head.Serial, Convert.ToHexStringLower(head.Hash), head.At, null, null)
            : null;
}
