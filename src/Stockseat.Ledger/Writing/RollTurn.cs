using Microsoft.Data.Sqlite;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Roll;
using Stockseat.Ledger.Rolling;
using Stockseat.Ledger.Sessions;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Writing;

/// <summary>
/// Whether a ledger may end now. Once it has, nothing is answered before the new one is in its place; so all that can stand in the way is tried
/// before, and as long as something does, the old one goes on.
/// </summary>
/// <param name="folder">The data folder.</param>
/// <param name="rollAt">When it ends by itself.</param>
/// <param name="time">The counter.</param>
internal sealed class RollTurn(string folder, RollAt rollAt, TimeProvider time)
{
    /// <summary>How long it waits after something was in the way: what is tried writes and syncs.</summary>
    public static readonly TimeSpan RetryAfter = TimeSpan.FromSeconds(5);

    /// <summary>How long the same cause is not told again.</summary>
    private static readonly TimeSpan TellAfter = TimeSpan.FromHours(1);

    /// <summary>Room for a new ledger with all that holds.</summary>
    private const int Room = 1 << 20;

    private long? _tried;
    private long? _finished;
    private (long At, string Cause)? _told;

    /// <summary>Told why a ledger that is to roll over goes on as it is: once, and again each hour while it lasts.</summary>
    public event Action<string>? PutOff;

    /// <summary>Whether a roll that is asked for is refused, since something is in its way: once the ledger has ended there is no way back.</summary>
    public bool Refused(LedgerSession session, List<Pending> batch)
    {
        if (batch is not [{ Ask: RollAsk { Denied: null } } roll] || Cause(session) is not { } cause)
        {
            return false;
        }

        roll.End(AppendOutcome.Of(Refusal.Of(Reason.LedgerUnavailable, $"the ledger can't roll over now, and goes on as it is: {cause}, then try again")));
        return true;
    }

    /// <summary>Ends the ledger when it is large enough and nothing is in the way.</summary>
    /// <returns>Whether it did.</returns>
    public bool End(LedgerSession session, StepClock clock)
    {
        if (!rollAt.IsDue(session, out var size) || (_tried is { } tried && time.GetElapsedTime(tried) < RetryAfter) || Cause(session) is not null)
        {
            return false;
        }

        rollAt.End(session, clock, size);
        return true;
    }

    /// <summary>Finishes what readers held up, each few seconds.</summary>
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
            // The ledger that is written needs none of it; a start tries again too.
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
                    + "so they can't be copied from its log into it: end that reader, or wait for it";
        }
        catch (SqliteException e)
        {
            return $"its log could not be copied into it ({e.Message.TrimEnd('.')}): look at the disk";
        }
    }
}
