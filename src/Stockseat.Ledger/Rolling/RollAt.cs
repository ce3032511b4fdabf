using System.Globalization;
using Stockseat.Answers.Records;
using Stockseat.Ledger.Writing;

namespace Stockseat.Ledger.Rolling;

/// <summary>The size at which a ledger rolls over by itself.</summary>
/// <param name="bytes">In bytes; null: never.</param>
internal sealed class RollAt(long? bytes)
{
    /// <summary>So that a ledger whose beginning alone is that large does not roll over and over.</summary>
    private const long LeastEntries = 1000;

    /// <summary>Writes the entry that ends the ledger when it is large enough.</summary>
    /// <returns>Whether it did.</returns>
    public bool End(LedgerSession session, StepClock clock)
    {
        if (bytes is not { } most || session.HasEnded || session.Head.Serial - session.Situation.Begins < LeastEntries
            || (session.Size is var size && size < most) || session.CarriesTooMuch)
        {
            return false;
        }

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
                Why = string.Create(CultureInfo.InvariantCulture, $"the ledger has {size} bytes; Ledger:RollAt in the configuration says {most}"),
            },
            at);
        session.Commit();
        clock.Keep();
        return true;
    }
}
