using Microsoft.Data.Sqlite;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Roll;
using Stockseat.Ledger.Rolling;
using Stockseat.Ledger.Sessions;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Writing;

/// <summary>
/// Whether a ledger may end now. Once it has ended, nothing is answered until the new one is in its place. So everything that can prevent a roll is tried
/// before, and as long as something does, the old ledger is continued.
/// </summary>
/// <param name="folder">The data folder.</param>
/// <param name="rollAt">When it ends by itself.</param>
/// <param name="time">The clock's counter.</param>
internal sealed class RollTurn(string folder, RollAt rollAt, TimeProvider time)
{
    /// <summary>How long it waits after something prevented the roll: the trial writes and syncs.</summary>
    public static readonly TimeSpan RetryAfter = TimeSpan.FromSeconds(5);

    /// <summary>How long the same cause is not reported again.</summary>
    private static readonly TimeSpan TellAfter = TimeSpan.FromHours(1);

    /// <summary>Room for a new ledger with everything that it carries.</summary>
    private const int Room = 1 << 20;

    private long? _tried;
    private long? _finished;
    private (long At, string Cause)? _told;

    /// <summary>Called with the reason why a ledger that should roll over is continued: once, and again each hour as long as it lasts.</summary>
    public event Action<string>? PutOff;

    /// <summary>Whether a requested roll is refused, because something prevents it: once the ledger has ended there is no way back.</summary>
    public bool Refused(LedgerSession session, List<Pending> batch)
    {
        if (batch is not [{ Ask: RollAsk { Denied: null } } roll] || Cause(session) is not { } cause)
        {
            return false;
        }

        roll.End(AppendOutcome.Of(Refusal.Of(Reason.LedgerUnavailable, $"the ledger can't roll over now, and is continued: {cause}, then try again")));
        return true;
    }

    /// <summary>Ends the ledger when it is large enough and nothing prevents it.</summary>
    /// <returns>Whether it ended.</returns>
    public bool End(LedgerSession session, StepClock clock)
    {
        if (!rollAt.IsDue(session, out var size) || (_tried is { } tried && time.GetElapsedTime(tried) < RetryAfter) || Cause(session) is not null)
        {
            return false;
        }

        rollAt.End(session, clock, size);
        return true;
    }

    /// <summary>Finishes rolls that readers held up, every few seconds.</summary>
    public void Finish()
    {
        if (_finished is { } finished && time.GetElapsedTime(finished) < RetryAfter)
        {
            return;
        }

        _finished = time.GetTimestamp();
        try
        {
            Rollover.Finish(folder);
        }
        catch (Exception e) when (e is SqliteException or IOException or UnauthorizedAccessException)
        {
            // The current ledger does not depend on this; a start tries it again too.
        }
    }

    private string? Cause(LedgerSession session)
    {
        if ((TooMuch(session) ?? FolderFault() ?? Readers(session)) is not { } cause)
        {
            (_tried, _told) = (null, null);
            RollSteps.Tell(folder, "end");
            return null;
        }

        _tried = time.GetTimestamp();
        if (_told is not var (at, told) || told != cause || time.GetElapsedTime(at) >= TellAfter)
        {
            _told = (_tried.Value, cause);
            PutOff?.Invoke(cause);
        }

        return cause;
    }

    private static string? TooMuch(LedgerSession session) => session.CarriesTooMuch
        ? "the new ledger would carry more revisions than its first entry can hold: keep this one, whatever its size, or begin a new data folder"
        : null;

    /// <summary>Tries whether the new ledger could be written.</summary>
    private string? FolderFault()
    {
        var closed = Path.Combine(folder, ClosedLedgers.Folder);
        try
        {
            Directory.CreateDirectory(closed);
            using var file = new FileStream(Path.Combine(closed, "room.part"), FileMode.Create, FileAccess.Write, FileShare.None, 1, FileOptions.DeleteOnClose);
            file.Write(new byte[Room]);
            file.Flush(flushToDisk: true);
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return $"the new ledger could not be written in {closed} ({e.Message.TrimEnd('.')}): "
                + "make room there, or give the service's user the right to write there";
        }
    }

    private string? Readers(LedgerSession session)
    {
        try
        {
            return session.CopyWholeLog() ? null
                : $"{LogReaders.Of(Path.Combine(folder, LedgerFile.Name))} has been reading {LedgerFile.Name} since before its newest entries, "
                    + "so these can't be copied from its log into the file: end that reader, or wait for it";
        }
        catch (SqliteException e)
        {
            return $"its log could not be copied into the file ({e.Message.TrimEnd('.')}): check the disk";
        }
    }
}
