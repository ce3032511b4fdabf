namespace Stockseat.Ledger.Store;

/// <summary>
/// A ledger that is not where it was. No start may begin another ledger in its place at serial 1, nor continue an old copy. A supervisor restarts a service
/// that ended, so a mark is left in the folder until a person has looked.
/// </summary>
public static class LostLedger
{
    /// <summary>The file that is the mark, and says what happened.</summary>
    internal const string Mark = "ledger.lost";

    /// <summary>Why no service starts in a folder; null: one may.</summary>
    /// <param name="folder">The data folder.</param>
    public static string? Refusal(string folder)
    {
        try
        {
            RefuseMarked(folder);
            if (!ClosedLedgers.Leaving(folder).Any())
            {
                RefuseMissing(folder);
            }

            return null;
        }
        catch (InvalidDataException e)
        {
            return e.Message;
        }
    }

    /// <summary>Refuses a folder whose ledger was lost while a service was running.</summary>
    /// <param name="folder">The data folder.</param>
    /// <exception cref="InvalidDataException">It was lost.</exception>
    internal static void RefuseMarked(string folder)
    {
        var mark = Path.Combine(folder, Mark);
        if (File.Exists(mark))
        {
            var said = File.ReadAllText(mark).Trim();
            throw new InvalidDataException($"nothing is written in {Path.GetFullPath(folder)} while {Mark} is there, which says: {said}");
        }
    }

    /// <summary>Refuses a folder whose ledger is missing; called when no roll is unfinished there.</summary>
    /// <param name="folder">The data folder.</param>
    /// <exception cref="InvalidDataException">It is missing.</exception>
    internal static void RefuseMissing(string folder)
    {
        var path = Path.Combine(folder, LedgerFile.Name);
        if (new FileInfo(path) is { Exists: true, Length: > 0 })
        {
            return;
        }

        var missing = $"there is no {LedgerFile.Name} in {Path.GetFullPath(folder)}";
        if (ClosedLedgers.Of(folder) is [.., var newest])
        {
            throw new InvalidDataException(
                $"{missing}, though {ClosedLedgers.Folder} holds the ledger before it, {Path.GetFileName(newest.Path)}: "
                + "it was removed, or lies in another folder; put it back, or a copy of it (stockseat ledger copy). "
                + $"To begin a new ledger at serial 1 on purpose, move the folder {ClosedLedgers.Folder} away as well");
        }

        if (new FileInfo(path + "-wal") is { Exists: true, Length: > 0 })
        {
            throw new InvalidDataException(
                $"{missing}, though its log {LedgerFile.Name}-wal is there, with its last entries: it was removed, or lies in another folder; "
                + $"put it back beside its log. To begin a new ledger at serial 1 on purpose, move {LedgerFile.Name}-wal away as well");
        }
    }

    /// <summary>Writes the mark, as well as that can be done: the folder may be gone.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="found">What happened to the ledger.</param>
    /// <param name="last">The last entry that was acknowledged.</param>
    /// <returns>The exception with which the service ends.</returns>
    internal static InvalidDataException Leave(string folder, string found, long last)
    {
        var words = $"{found}; entry {last} is the last one that was acknowledged. "
            + $"The service ends, and no service starts here while {Mark} is in the folder. "
            + $"Move {LedgerFile.Name}, {LedgerFile.Name}-wal and {LedgerFile.Name}-shm away together, put the right ledger there, or the newest copy of it, "
            + $"check it with stockseat ledger verify and the newest anchor, then remove {Mark}";
        try
        {
            Directory.CreateDirectory(folder); // Even in the place of a folder that was renamed: otherwise a start would begin at serial 1 there.
            File.WriteAllText(Path.Combine(folder, Mark), words + "\n");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new(words + $" ({Mark} could not be written: {e.Message.TrimEnd('.')})", e);
        }

        return new(words);
    }
}
