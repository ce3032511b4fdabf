using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Ledger.Reading;

namespace Stockseat.Audit.Reviewing.Window;

/// <summary>
/// What the ledger says about the stock in the nests: when a fixture was emptied, and what was measured for it, between the answers of a window and right
/// before them.
/// </summary>
/// <param name="reader">The ledger.</param>
/// <param name="older">Takes those from outside the window.</param>
/// <param name="answers">The answers, in order.</param>
internal sealed class StockWords(LedgerReader reader, OlderEntries older, IReadOnlyList<AnswerBody> answers)
{
    /// <summary>How many of a kind are read for one fixture: the newest.</summary>
    private const int Most = 2000;

    private readonly Dictionary<string, List<EntryBody>> _of = new(StringComparer.Ordinal);

    /// <summary>Those between two answers of one fixture, in order.</summary>
    public IReadOnlyList<EntryBody> Between(AnswerBody before, AnswerBody answer)
    {
        if (!_of.TryGetValue(answer.Fixture!, out var words))
        {
            words = _of[answer.Fixture!] = Read(answer.Fixture!);
        }

        return [.. words.Where(w => w.Serial > before.Serial && w.Serial < answer.Serial)];
    }

    private List<EntryBody> Read(string fixture)
    {
        var serials = answers.Where(a => a.Fixture == fixture).Select(a => a.Serial).ToList();
        return [.. Of<EmptiedBody>(Kinds.Emptied).Concat(Of<MeasurementBody>(Kinds.Measurement)).OrderBy(b => b.Serial)];
        IEnumerable<EntryBody> Of<T>(string kind)
            where T : EntryBody => reader.Of(fixture, kind, serials[0], serials[^1], Most).ToList().Select(older.Take<T>).OfType<EntryBody>();
    }
}
