using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Roll;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Verifying;

/// <summary>
/// Checks that the ledgers of a folder name each other at their ends and beginnings. <see cref="LedgerVerifier"/> checks what is inside each of them.
/// </summary>
public static class LedgerLinks
{
    /// <summary>Checks the links.</summary>
    /// <param name="data">The data folder.</param>
    /// <param name="tell">Called with findings that are not faults: a ledger before this one that is no longer there, and a change of key.</param>
    public static IReadOnlyList<LedgerFault> Check(string data, Action<string> tell)
    {
        var faults = new List<LedgerFault>();
        (EntryRow First, EntryRow Last, string Path)? before = null;
        string? sealedBy = null;
        foreach (var (path, closed) in ClosedLedgers.Of(data).Select(f => (f.Path, true)).Append((Path.Combine(data, LedgerFile.Name), false)))
        {
            if (Ends(data, path, closed, faults) is not var (first, last, key))
            {
                continue;
            }

            Link(before, first, Path.GetFileName(path), faults, tell);
            if (closed && Read(last) is not { IsEnd: true })
            {
                faults.Add(
                    new(last.Serial, FaultKinds.Link,
                    $"{Path.GetFileName(path)} is among the closed ledgers, but its last entry, {Text(last.Serial)}, does not say that it rolled over: its "
                    + $"tail was cut off, or it never ended"));
            }

            if (key is not null && sealedBy is not null && key != sealedBy)
            {
                tell($"{Path.GetFileName(path)} is sealed with another key than the ledger before it ({Short(key)}, before that {Short(sealedBy)}): somebody "
                    + $"should know why");
            }

            (before, sealedBy) = ((first, last, path), key ?? sealedBy);
        }

        return faults;
    }

    /// <summary>The first and the last entry of a ledger; null when it has none, or can't be read.</summary>
    private static (EntryRow First, EntryRow Last, string? Key)? Ends(string data, string path, bool closed, List<LedgerFault> faults)
    {
        try
        {
            using var connection = closed ? LedgerFile.OpenClosed(path) : LedgerFile.OpenReader(data);
            return LedgerQueries.First(connection) is { } first && LedgerQueries.Before(connection, long.MaxValue, 1) is [var last]
                ? (first, last, NewestSeal.Read(connection).Key) : null;
        }
        catch (Exception e) when (ClosedLedgers.IsUnreadable(e))
        {
            if (closed) // For the current ledger the verifier reports it, with the place.
            {
                faults.Add(
                    new(0, "link",
                    $"{Path.GetFileName(path)} is among the closed ledgers and can't be read: {e.Message.TrimEnd('.')}; put a copy "
                    + "of it there, or move it away"));
            }

            return null;
        }
    }

    private static void Link((EntryRow First, EntryRow Last, string Path)? before, EntryRow first, string name, List<LedgerFault> faults, Action<string> away)
    {
        if (Read(first) is not { Follows: { } follows } beginning)
        {
            if (before is { } older)
            {
                faults.Add(
                    new(first.Serial, FaultKinds.Link,
                    $"{name} does not say that it continues {Path.GetFileName(older.Path)}, which ends with {Text(older.Last.Serial)}"));
            }
        }
        else if (before is not { } old || old.Last.Serial < follows.Last)
        {
            away($"{name} continues ledger {follows.Ledger}, which ended with {Text(follows.Last)} and is not in {ClosedLedgers.Folder}, so that "
                + $"can't be checked here");
        }
        else if (old.Last.Serial != follows.Last || Convert.ToHexStringLower(old.Last.Hash) != follows.Hash || Read(old.Last)?.Next != beginning.Ledger)
        {
            faults.Add(
                new(first.Serial, FaultKinds.Link,
                $"{name} and {Path.GetFileName(old.Path)} do not name each other: the one continues {Text(follows.Last)} {follows.Hash}, the other ends "
                + $"with {Text(old.Last.Serial)} {Convert.ToHexStringLower(old.Last.Hash)}"));
        }
    }

    private static RolledOverBody? Read(EntryRow row) => row.Kind == Kinds.RolledOver ? row.TryReadBody() as RolledOverBody : null;

    private static string Short(string key) => key[..Math.Min(12, key.Length)];

    private static string Text(long serial) => serial.ToString(CultureInfo.InvariantCulture);
}
