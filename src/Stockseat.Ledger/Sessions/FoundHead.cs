using System.Text;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Roll;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Sessions;

/// <summary>The end of a ledger.</summary>
/// <param name="Head">Its last entry.</param>
/// <param name="LastKind">The kind of the last entry that is neither a seal nor a snapshot; null in a new ledger.</param>
/// <param name="HasEnded">Whether the last entry says that the ledger has ended.</param>
/// <param name="LastAt">The instant of the last entry; null in a new ledger.</param>
internal sealed record FoundHead(Head Head, string? LastKind, bool HasEnded, DateTimeOffset? LastAt)
{
    /// <summary>Reads the end of a ledger.</summary>
    /// <exception cref="InvalidDataException">The last entry does not follow from the one before it.</exception>
    public static FoundHead Read(SqliteConnection connection)
    {
        var last = LedgerQueries.Before(connection, long.MaxValue, 2);
        if (last.Count == 0)
        {
            return new(new(0, ChainHash.Start), null, false, null);
        }

        var before = last.Count == 2 ? last[0].Hash : ChainHash.Start;
        var head = last[^1];
        if (!ChainHash.Of(before, Encoding.UTF8.GetBytes(head.Body)).AsSpan().SequenceEqual(head.Hash))
        {
            throw new InvalidDataException(
                $"the ledger's last entry, {head.Serial}, does not follow from the one before it; no entry is added: "
                + "run stockseat ledger verify --data FOLDER, and move the damaged ledger away");
        }

        using var body = JsonDocument.Parse(head.Body); // The entry may be of any kind, also of a kind that only later versions know.
        return new(
            new(head.Serial, head.Hash),
            head.Kind is Kinds.Seal or Kinds.Snapshot ? LedgerQueries.NewestThatHappened(connection)?.Kind : head.Kind,
            head.Kind == Kinds.RolledOver && head.ReadBody() is RolledOverBody { IsEnd: true },
            EntryTime.Parse(body.RootElement.GetProperty("at").GetString()!));
    }
}
