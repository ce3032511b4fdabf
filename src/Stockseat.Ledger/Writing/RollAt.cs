using System.Globalization;
using Stockseat.Answers.Roll;
using Stockseat.Ledger.Sessions;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Writing;

/// <summary>The size at which a ledger rolls over by itself.</summary>
/// <param name="bytes">The size in bytes; null: never.</param>
internal sealed class RollAt(long? bytes)
{
    /// <summary>This keeps a ledger whose first entry alone is that large from rolling over again and again.</summary>
    private const long LeastEntries = 1000;

    /// <summary>Whether the ledger is large enough.</summary>
    public bool IsDue(LedgerSession session, out long size)
    {
        size = 0;
        return bytes is { } most && !session.HasEnded && session.Head.Serial - session.Situation.Begins >= LeastEntries && (size = session.Size) >= most;
    }

    /// <summary>Writes the entry that ends it.</summary>
    public void End(LedgerSession session, StepClock clock, long size)
    {
        var at = clock.Look(out var step);
        session.Begin();
        if (step is not null)
        {
            session.AppendStep(step, at);
        }

        session.Append(
            new RolledOverBody
            {
                Next = Guid.NewGuid().ToString(),
                By = "stockseat",
                Why = string.Create(CultureInfo.InvariantCulture, $"the ledger has {size} bytes; Ledger:RollAt in the configuration says {bytes}"),
            },
            at);
        session.Commit();
        clock.Keep();
    }
}
