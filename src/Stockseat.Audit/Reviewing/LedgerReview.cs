using Stockseat.Answers.Adopt;
using Stockseat.Answers.Done;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;
using Stockseat.Audit.Replaying;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Reviewing.Window;
using Stockseat.Audit.Showing;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Verifying;

namespace Stockseat.Audit.Reviewing;

/// <summary>Makes reviews of a ledger.</summary>
public sealed class LedgerReview
{
    /// <summary>The most entries that a review shows.</summary>
    public const int MostEntries = 2000;

    /// <summary>How far back an entry before the instant is searched for when the window has none.</summary>
    private static readonly TimeSpan[] Back = [TimeSpan.FromDays(1), TimeSpan.FromDays(30), TimeSpan.MaxValue];

    /// <summary>Up to this many entries that are not shown are replayed together with those around them: a new beginning costs more.</summary>
    private const int SmallGap = 100;

    /// <summary>How many measurements of a fixture are searched for the last one of a lot.</summary>
    private const int MeasurementsBack = 100;

    private readonly HashSet<string> _ofCell = new(StringComparer.Ordinal);
    private readonly string _folder;
    private readonly LedgerReader _reader;
    private readonly ReviewQuestion _question;
    private readonly DateTimeOffset _at;

    private LedgerReview(string folder, LedgerReader reader, ReviewQuestion question, DateTimeOffset at) =>
        (_folder, _reader, _question, _at) = (folder, reader, question, at);

    /// <summary>Reviews the ledger in a folder, running or stopped, and those before it that were closed and are still there.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="question">Which minutes.</param>
    /// <param name="verify">Verifies the whole ledger; null: only the entries shown are checked.</param>
    /// <param name="display">The unit and the zone of its words.</param>
    /// <param name="token">Stops it soon.</param>
    /// <param name="plant">Why the plant store has something else than this ledger; null: nothing is known of that.</param>
    /// <returns>The review; null when there is no entry of the serial that was asked for.</returns>
    public static Review? Of(
        string folder, ReviewQuestion question, Func<Verification>? verify, Display display, CancellationToken token, string? plant = null)
    {
        using var reader = LedgerReader.Open(folder);
        var at = question.At ?? (reader.Find(question.Serial ?? 0) is { } row ? new ReviewEntry(row, null).At : null);
        if (at is null)
        {
            return null;
        }

        var review = new LedgerReview(folder, reader, question, EntryTime.Nearest(at.Value)).Make(verify, token);
        return ReviewFindings.With(review with { Evidence = review.Evidence with { Plant = plant } }, display);
    }

    private Review Make(Func<Verification>? verify, CancellationToken token)
    {
        var head = _reader.Last;
        var window = ReviewWindow.Read(_reader, _at, _question.Before, _question.After);
        var wanted = Wanted([.. window.Rows.Select(ReviewEntry.Of)], window.Rows.Count > 0 ? window.Rows[0].Serial : Then(window, []) + 1);
        var entries = Nearest(window, wanted);
        var older = new OlderEntries(_reader, entries);
        var then = Then(window, entries);
        var situation = Held(then);
        var fixtures = Fixtures(entries, situation);
        var answers = new WindowAnswers(_reader, entries, older, fixtures.Select(f => f.Fixture), Unseen(window, wanted, entries, then));
        var states = fixtures.Select(f => Stand(f, older, then, answers)).ToList();
        var served = answers.All();
        var adoptions = Adoptions(entries, fixtures, states, served, older);
        FindLots(entries, older);
        new LaterNotes(_reader, older, _at.Moved(-_question.Before), _at.Moved(_question.After)).Find(
            [.. fixtures.Select(f => f.Fixture)], entries, _question is { Fixture: null, Cell: null });
        var replay = Replay(entries, token);
        return new()
        {
            Ledger = Id(),
            HeadSerial = head,
            HeadHash = Convert.ToHexStringLower(_reader.HashOf(head) ?? []),
            Question = _question,
            At = _at,
            Then = then,
            Entries = entries,
            LeftOut = window.NotRead + wanted.Count - entries.Count,
            Older = older.Found,
            Adoptions = adoptions,
            Fixtures = states,
            LoadsBefore = Loads(entries, situation),
            Answers = [.. served.Select(a => a with { Follows = replay.Differences.All(d => d.Serial != a.Answer.Serial) })],
            Evidence = new(WindowChain.Check(_reader, entries), verify?.Invoke(), replay),
        };
    }

    /// <summary>What was in force after an entry; nothing where a body can't be read, which the evidence then says.</summary>
    private Situation Held(long serial)
    {
        try
        {
            return serial == 0 ? Situation.Empty : _reader.SituationAfter(serial);
        }
        catch (Exception e) when (e is InvalidDataException || EntryReplay.IsOfTheBody(e))
        {
            return Situation.Empty;
        }
    }

    /// <summary>What stood in the nests right before the window; it is read only when a load matters in it.</summary>
    private Dictionary<string, Load> Loads(List<ReviewEntry> entries, Situation then)
    {
        var matters = then.Fixtures.Any(f => f.Load is not null)
            || entries.Any(e => e.Body is LoadedBody or DroppedBody or DoneBody { Load: not null } or AnswerBody { Load: not null });
        return !matters || entries.Count == 0 ? []
            : Held(entries[0].Serial - 1).Fixtures.Where(f => f.Load is not null).ToDictionary(f => f.Fixture, f => f.Load!, StringComparer.Ordinal);
    }

    /// <summary>
    /// The entries of the window that the question wants. A cell's fixtures are those that its clients name, whoever else measures or adopts for them.
    /// </summary>
    private List<ReviewEntry> Wanted(List<ReviewEntry> entries, long below)
    {
        if (_question is { Fixture: null, Cell: null })
        {
            return entries;
        }

        if (_question.Cell is { } cell)
        {
            // Also those for which it was answered before: what happens to a fixture concerns the controller that has a number of it.
            _ofCell.UnionWith(
                entries.Where(e => e.Body?.Cell == cell).Select(e => e.Body!.Fixture).OfType<string>().Concat(EarlierAnswers.FixturesOf(_reader, cell, below)));
        }

        bool Concerns(ReviewEntry e) => e.Row.Fixture is { } fixture
            ? (_question.Fixture is null || fixture == _question.Fixture) && (_question.Cell is null || _ofCell.Contains(fixture))
            : e.Body?.Client is null || (_question.Fixture is null && e.Body.Cell == _question.Cell); // what the service says of itself concerns everybody
        return [.. entries.Where(Concerns)];
    }

    /// <summary>Those nearest to the instant, when there are too many to show.</summary>
    private List<ReviewEntry> Nearest(ReviewWindow window, List<ReviewEntry> entries) => entries.Count <= MostEntries
        ? entries
        : [.. entries.OrderBy(e => (window.At(e) - _at).Duration()).ThenBy(e => e.Serial).Take(MostEntries).OrderBy(e => e.Serial)];

    /// <summary>
    /// The ranges of serials with answers that are not shown: before those that are shown, where the clock was set among them, and those left out as too many.
    /// </summary>
    private static IEnumerable<(long Above, long Below)> Unseen(ReviewWindow window, List<ReviewEntry> wanted, List<ReviewEntry> shown, long then)
    {
        var tooMany = wanted.Select(e => e.Serial).Except(shown.Select(e => e.Serial)).ToHashSet();
        long[] seen = [.. window.Rows.Select(r => r.Serial).Where(s => !tooMany.Contains(s))];
        return seen.Length == 0 ? [(0, then + 1)] : seen.Prepend(0).Zip(seen).Where(g => g.Second - g.First > 1);
    }

    /// <summary>The last entry up to the instant; 0 when there is none.</summary>
    private long Then(ReviewWindow window, List<ReviewEntry> entries)
    {
        if (_question.Serial is { } serial)
        {
            return serial;
        }

        if (entries.FindLast(e => window.At(e) <= _at) is { } last)
        {
            return last.Serial;
        }

        foreach (var back in Back)
        {
            var times = new EntryFilter { From = _at.Moved(-back), To = _at.Next() };
            if (_reader.Stretches(times).Reverse().Select(s => _reader.Newest(s, times)).FirstOrDefault(r => r is not null) is { } row)
            {
                return row.Serial;
            }
        }

        return 0;
    }

    /// <summary>The fixtures of the window; when it has no entries, all fixtures of that time.</summary>
    private List<FixtureState> Fixtures(List<ReviewEntry> entries, Situation situation)
    {
        var named = entries.Select(e => e.Row.Fixture).Concat(_question.Fixture is null ? _ofCell : []).Append(_question.Fixture)
            .ToHashSet(StringComparer.Ordinal);
        return [.. situation.Fixtures.Where(f => named.Contains(f.Fixture) || (_question is { Fixture: null, Cell: null } && named.All(n => n is null)))];
    }

    private FixtureThen Stand(FixtureState state, OlderEntries older, long then, WindowAnswers answers) => new()
    {
        Fixture = state.Fixture,
        Adopted = older.Find<RevisionAdoptedBody>(state.AdoptedBy),
        Holds = [.. state.Holds.Values.OrderBy(h => h.Serial)],
        Measurement = older.Find<MeasurementBody>(state.Measurement?.Serial),
        NoMeasurement = state.Measurement is null ? state.NoMeasurement : null,
        Emptied = older.Take<EmptiedBody>(_reader.Newest(state.Fixture, Kinds.Emptied, then, then - EarlierAnswers.LongestBack)),
        Load = state.Load is { } load ? LoadText.Of(load) : null,
        Missed = older.Find<RecheckBody>(state.Missed?.Serial),
        Unproven = state.Unproven,
        LastAnswer = answers.Last(state.Fixture, then),
        LastConfirmedBy = answers.ConfirmedBy(answers.Last(state.Fixture, then)),
    };

    /// <summary>
    /// Finds the last measurements, before the window, of the lots in it, for the same fixture: the stock may have been loaded an hour before.
    /// </summary>
    private void FindLots(List<ReviewEntry> entries, OlderEntries older)
    {
        foreach (var first in entries.Select(e => e.Body).OfType<MeasurementBody>().Where(m => m.Lot is not null).GroupBy(m => (m.Fixture, m.Lot))
            .Select(g => g.First()).ToList())
        {
            var rows = _reader.Of(first.Fixture!, Kinds.Measurement, first.Serial - EarlierAnswers.LongestBack, first.Serial, MeasurementsBack);
            _ = older.Take<MeasurementBody>(rows.LastOrDefault(r => OlderEntries.Read(r) is MeasurementBody m && m.Lot == first.Lot));
        }
    }

    /// <summary>The adoptions of all revisions that are shown.</summary>
    private static List<RevisionAdoptedBody> Adoptions(
        List<ReviewEntry> entries, List<FixtureState> states, List<FixtureThen> fixtures, IReadOnlyList<ServedAnswer> answers, OlderEntries older)
    {
        var shown = answers.SelectMany(a => new[] { a.Answer, a.Before }).Concat(fixtures.Select(f => f.LastAnswer)).Select(a => a?.Digest).ToHashSet();
        var known = states.SelectMany(s => s.Adoptions.Values).Select(s => older.Find<RevisionAdoptedBody>(s))
            .Concat(entries.Select(e => e.Body as RevisionAdoptedBody)).OfType<RevisionAdoptedBody>();
        var all = fixtures.Select(f => f.Adopted).OfType<RevisionAdoptedBody>().Concat(known.Where(a => shown.Contains(a.Digest)));
        return [.. all.DistinctBy(a => a.Serial).OrderBy(a => a.Serial)];
    }

    /// <summary>Replays what is shown, each run of serials by itself, and also the entries in small gaps between them.</summary>
    private ReplayResult Replay(List<ReviewEntry> entries, CancellationToken token)
    {
        var all = new StretchResult();
        for (var i = 0; i < entries.Count;)
        {
            var end = i;
            while (end + 1 < entries.Count && entries[end + 1].Serial - entries[end].Serial <= SmallGap)
            {
                end++;
            }

            all.Add(LedgerReplay.Run(_folder, new() { From = entries[i].Serial, Until = entries[end].Serial, Ranges = 1 }, token));
            i = end + 1;
        }

        return all.ToResult();
    }

    private string? Id()
    {
        try
        {
            return _reader.LedgerId;
        }
        catch (System.Text.Json.JsonException)
        {
            return null;
        }
    }
}
