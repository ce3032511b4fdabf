using Stockseat.Answers.Entries;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Showing;
using Stockseat.Ledger.Store;
using Stockseat.Plant.Connecting;
using Stockseat.Plant.Heads;

namespace Stockseat.Plant.Evidence;

/// <summary>
/// Makes a data folder that has what a review of some minutes reads, and no more, so that it takes the same time however long the ledger is. Where it can't be
/// sure to have everything, it makes none, and the whole ledger has to be copied.
/// </summary>
public sealed class StoredMinutes(PlantConnection connection, PlantAddress address)
{
    /// <summary>Starts, steps of the clock, adoptions and notes: more of them are not worth a choice.</summary>
    private const int MostOfRare = 20_000;

    /// <summary>The longest window, in entries.</summary>
    private const int Longest = 6000;

    /// <summary>How far before the window the review looks (<c>EarlierAnswers.LongestBack</c>), and how far after it this does.</summary>
    private const int Reach = 20_000;

    private const string Rare = "kind IN ('clock-step', 'service-started', 'revision-adopted', 'note')";

    /// <summary>Twice what instants may go back without a step of the clock.</summary>
    private static readonly TimeSpan Slack = 2 * StepClock.Slack;

    /// <summary>Fills an empty folder.</summary>
    /// <param name="ledger">The ledger that becomes the current one.</param>
    /// <param name="all">All ledgers of the store.</param>
    /// <param name="question">The minutes.</param>
    /// <param name="folder">The folder.</param>
    /// <param name="token">Ends it.</param>
    /// <returns>False: nothing was written, since the review may need more.</returns>
    /// <exception cref="PlantException">The store can't be read.</exception>
    public Task<bool> Make(
        StoredLedger ledger, IReadOnlyList<StoredLedger> all, ReviewQuestion question, string folder, CancellationToken token) =>
        PlantException.Around(address, async () =>
        {
            var chain = await Chain(ledger, all, token);
            if (await At(chain, question, token) is not { } at || await Window(chain, question, at, token) is not var (part, above, last)
                || part.Rows.Any(r => IsStepWithin(r, above, last + 1)) || last - above > Longest
                || (part != chain[0] && part.Ledger.Last < last + Reach) || (part.Ledger.First > 1 && part.Ledger.First > above - Reach)
                || await Begin(part, above, token) is not { } first)
            {
                return false;
            }

            await part.Add("serial >= $2 AND serial <= $3", token, first, last + 1);
            var window = new MinutesAround(part, question, first, above, last);
            if (!window.HasEntryUpTo(at))
            {
                return false;
            }

            await window.Complete(Reach, token);
            var named = window.Named().ToList();
            foreach (var other in chain)
            {
                await other.Add(named, token);
                other.Write(other == chain[0] ? Path.Combine(folder, LedgerFile.Name) : StoredCopy.ClosedPath(folder, other.Ledger));
            }

            return true;
        });

    /// <summary>The ledger and those before it, each with its first and last entry and its rare ones.</summary>
    private async Task<List<SparseLedger>> Chain(StoredLedger ledger, IReadOnlyList<StoredLedger> all, CancellationToken token)
    {
        var chain = new List<SparseLedger>();
        for (var next = ledger; next is not null && chain.All(c => c.Ledger != next);)
        {
            var part = new SparseLedger(connection, next);
            await part.Add($"(serial = $2 OR serial = $3 OR {Rare})", token, next.First, next.Last);
            chain.Add(part);
            var follows = part.Row(next.First) is { } first && (string)first[StoredRow.Kind] == Kinds.RolledOver
                ? StoredCopy.Follows((string)first[StoredRow.Body]) : null;
            next = all.FirstOrDefault(l => l.Ledger == follows);
        }

        return chain;
    }

    /// <summary>The instant that is meant; null: there is no such entry, or too much to choose from.</summary>
    private static async Task<DateTimeOffset?> At(List<SparseLedger> chain, ReviewQuestion question, CancellationToken token)
    {
        if (chain.Sum(c => c.Rows.Count()) > MostOfRare)
        {
            return null;
        }

        if (question.Serial is not { } serial)
        {
            return EntryTime.Nearest(question.At!.Value);
        }

        foreach (var part in chain)
        {
            await part.Add([serial], token);
            if (part.Row(serial) is { } row && EntryTime.TryParse((string)row[StoredRow.At], out var at))
            {
                return EntryTime.Nearest(at);
            }
        }

        return null;
    }

    /// <summary>
    /// The part and the range of its serials in which entries of the window can be, as <c>TimeStretches</c> finds them; null: there are none, or they are in
    /// several places.
    /// </summary>
    private static async Task<(SparseLedger Part, long Above, long Last)?> Window(
        List<SparseLedger> chain, ReviewQuestion question, DateTimeOffset at, CancellationToken token)
    {
        var (from, to) = (at.Moved(-question.Before).Moved(-Slack), at.Moved(question.After).Next().Moved(Slack));
        (SparseLedger Part, long Above, long Last)? found = null;
        foreach (var part in chain)
        {
            long[] borders =
            [
                part.Ledger.First, .. part.Rows.Where(r => (string)r[StoredRow.Kind] is Kinds.ClockStep or Kinds.ServiceStarted).Select(Serial)
                    .Where(s => s > part.Ledger.First), part.Ledger.Last + 1,
            ];
            await part.Add(borders.Skip(1).Select(b => b - 1), token);
            foreach (var (begin, next) in borders.Zip(borders.Skip(1)))
            {
                if (Instant(part, begin) is { } oldest && Instant(part, next - 1) is { } newest && (newest < from || oldest >= to))
                {
                    continue;
                }

                var low = await part.LastBefore(begin - 1, next - 1, from, token);
                var high = await part.LastBefore(low, next - 1, to, token);
                if (low < high)
                {
                    if (found is var (other, above, last) && (other != part || last != low))
                    {
                        return null;
                    }

                    found = (part, found?.Above ?? low, high);
                }
            }
        }

        return found;
    }

    /// <summary>The newest snapshot before the window, or the ledger's first entry where that is near; null: there is none.</summary>
    private static async Task<long?> Begin(SparseLedger part, long above, CancellationToken token)
    {
        var snapshot = await part.Number(
            "SELECT serial FROM stockseat.entry WHERE ledger = $1 AND kind = 'snapshot' AND serial <= $2 ORDER BY serial DESC LIMIT 1", token, above)
            ?? part.Ledger.First;
        return above - snapshot <= Longest ? snapshot : null;
    }

    private static bool IsStepWithin(object[] row, long above, long last) =>
        (string)row[StoredRow.Kind] == Kinds.ClockStep && Serial(row) > above && Serial(row) <= last;

    private static long Serial(object[] row) => (long)row[StoredRow.Serial];

    private static DateTimeOffset? Instant(SparseLedger part, long serial) =>
        part.Row(serial) is { } row && EntryTime.TryParse((string)row[StoredRow.At], out var at) ? at : null;
}
