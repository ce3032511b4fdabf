using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Ledger.Reading;

namespace Stockseat.Audit.Reviewing.Window;

/// <summary>Finds the inputs of the answers of a window and what happened to them.</summary>
internal sealed class WindowAnswers
{
    /// <summary>How many confirmations after the window are searched: a controller confirms at once, or not at all.</summary>
    private const int ConfirmationsAfter = 200;

    private readonly LedgerReader _reader;
    private readonly IReadOnlyList<ReviewEntry> _entries;
    private readonly OlderEntries _older;
    private readonly List<AnswerBody> _answers;
    private readonly List<AnswerBody> _all;

    /// <param name="reader">The ledger.</param>
    /// <param name="entries">The entries of the window.</param>
    /// <param name="older">Takes those from outside it.</param>
    /// <param name="fixtures">The fixtures whose last answer is wanted.</param>
    /// <param name="places">Between which serials answers from outside the window count: before it, and where the clock was set within it.</param>
    public WindowAnswers(
        LedgerReader reader, IReadOnlyList<ReviewEntry> entries, OlderEntries older, IEnumerable<string> fixtures, IEnumerable<(long Above, long Below)> places)
    {
        (_reader, _entries, _older) = (reader, entries, older);
        _answers = [.. entries.Select(e => e.Body).OfType<AnswerBody>()];
        var (wanted, keys) = (fixtures.ToList(), _answers.Select(AnswerKey.Of).ToList());
        List<AnswerBody> outside = [.. places.SelectMany(p => new EarlierAnswers(keys, wanted).Find(reader, p.Above, p.Below))];
        outside.ForEach(a => older.Find<AnswerBody>(a.Serial));
        _all = [.. _answers.Concat(outside).OrderBy(a => a.Serial)];
    }

    /// <summary>The answers of the window.</summary>
    public IReadOnlyList<ServedAnswer> All()
    {
        var (confirmed, stock) = (Confirmations(), new StockWords(_reader, _older, _all));
        var misread = _entries.Select(e => e.Body).OfType<RefusalBody>().Where(r => r is { Asked: "confirm", Confirms: not null })
            .ToLookup(r => r.Confirms!.Value);
        var (last, shown, served) = (new Dictionary<AnswerKey, AnswerBody>(), _answers.Select(a => a.Serial).ToHashSet(), new List<ServedAnswer>());
        foreach (var answer in _all)
        {
            var before = last.GetValueOrDefault(AnswerKey.Of(answer));
            last[AnswerKey.Of(answer)] = answer;
            if (shown.Contains(answer.Serial))
            {
                served.Add(new()
                {
                    Answer = answer,
                    Measurement = _older.Find<MeasurementBody>(answer.Measurement),
                    Before = before,
                    Between = before is null ? [] : stock.Between(before, answer),
                    Change = before is null ? null : [.. answer.ShiftBase.Zip(before.ShiftBase, (now, then) => now - then)],
                    ConfirmedBy = confirmed.TryGetValue(answer.Serial, out var serial) ? serial : null,
                    Misread = [.. misread[answer.Serial]],
                });
            }
        }

        return served;
    }

    /// <summary>The last answer for a fixture up to a serial.</summary>
    public AnswerBody? Last(string fixture, long upTo) => _all.FindLast(a => a.Fixture == fixture && a.Serial <= upTo);

    /// <summary>The first confirmation of an answer, wherever it is; null when none is found.</summary>
    public long? ConfirmedBy(AnswerBody? answer) => answer is null ? null : _reader.Confirmations(answer.Fixture!, answer.Serial, ConfirmationsAfter)
        .FirstOrDefault(r => OlderEntries.Read(r) is ConfirmationBody c && c.Confirms == answer.Serial)?.Serial;

    /// <summary>The first confirmation of each answer, also after the window.</summary>
    private Dictionary<long, long> Confirmations()
    {
        var found = new Dictionary<long, long>();
        foreach (var c in _entries.Select(e => e.Body).OfType<ConfirmationBody>())
        {
            found.TryAdd(c.Confirms, c.Serial);
        }

        foreach (var answers in _answers.Where(a => !found.ContainsKey(a.Serial)).GroupBy(a => a.Fixture!).ToList())
        {
            foreach (var row in _reader.Confirmations(answers.Key, answers.First().Serial, ConfirmationsAfter + _entries.Count))
            {
                if (OlderEntries.Read(row) is ConfirmationBody c)
                {
                    found.TryAdd(c.Confirms, c.Serial);
                }
            }
        }

        return found;
    }
}
