using System.Globalization;
using System.Text;
using System.Text.Json;
using Stockseat.Answers.Roll;
using Stockseat.Answers.Verbs;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;

namespace Stockseat.Audit.Reviewing.Window;

/// <summary>Checks the entries of a window against the hashes before them: this is not the whole chain, but shows whether a single entry was edited.</summary>
internal static class WindowChain
{
    /// <summary>What is wrong with the first entry that is not as it was written; null when all are.</summary>
    public static string? Check(LedgerReader reader, IReadOnlyList<ReviewEntry> entries)
    {
        (long Serial, byte[] Hash)? before = null;
        foreach (var entry in entries)
        {
            if (Fault(reader, entry, before) is { } fault)
            {
                return string.Create(CultureInfo.InvariantCulture, $"entry {entry.Serial} {fault}; run stockseat ledger verify");
            }

            before = (entry.Serial, entry.Row.Hash);
        }

        return null;
    }

    private static string? Fault(LedgerReader reader, ReviewEntry entry, (long Serial, byte[] Hash)? before)
    {
        if (entry.Row.Body.Length == 0)
        {
            return $"has a body that is not read: {BodyJson.TooLong(entry.Row.Kind, 0)}";
        }

        var previous = IsFirst(entry) ? ChainHash.Start : before is { } b && b.Serial == entry.Serial - 1 ? b.Hash : reader.HashOf(entry.Serial - 1);
        if (previous is null)
        {
            return "can't be compared with the entry before it, which is missing";
        }

        if (!ChainHash.Of(previous, Encoding.UTF8.GetBytes(entry.Row.Body)).AsSpan().SequenceEqual(entry.Row.Hash))
        {
            return "does not follow from the entry before it: its body, its hash or the hash before it was changed";
        }

        return entry.Body is { } body && (
            !IsOfItsKind(entry.Row) || (body.Serial, body.At, body.Fixture, body.Revision, body.Client, body.Tag) != (
                entry.Serial, entry.Row.At, entry.Row.Fixture, entry.Row.Revision, entry.Row.Client, entry.Row.Tag))
            ? "has columns that are not copies of its body" : null;
    }

    /// <summary>Whether its previous hash is all zeros, as for the first entry of any ledger.</summary>
    private static bool IsFirst(ReviewEntry entry) => entry.Serial == 1 || entry.Body is RolledOverBody { IsEnd: false };

    /// <summary>Whether the body states the same kind as the column: it was read as that kind, whatever it states.</summary>
    private static bool IsOfItsKind(EntryRow row)
    {
        using var body = JsonDocument.Parse(row.Body);
        return body.RootElement.TryGetProperty("kind", out var kind) && kind.ValueKind == JsonValueKind.String && kind.ValueEquals(row.Kind);
    }
}
