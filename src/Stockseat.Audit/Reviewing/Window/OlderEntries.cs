using System.Text.Json;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Roll;
using Stockseat.Answers.Verbs;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;

namespace Stockseat.Audit.Reviewing.Window;

/// <summary>
/// Finds entries on which those of a window depend, wherever they are: in the window, before it, in a closed ledger, or carried over from a ledger that was
/// moved away.
/// </summary>
internal sealed class OlderEntries
{
    private readonly LedgerReader _reader;
    private readonly Dictionary<long, ReviewEntry?> _known;
    private readonly HashSet<long> _window;
    private Dictionary<long, ReviewEntry>? _carried;

    public OlderEntries(LedgerReader reader, IReadOnlyList<ReviewEntry> window)
    {
        (_reader, _known) = (reader, window.ToDictionary(e => e.Serial, e => (ReviewEntry?)e));
        _window = [.. window.Select(e => e.Serial)];
    }

    /// <summary>Those that were found outside the window, in order.</summary>
    public IReadOnlyList<ReviewEntry> Found => [.. _known.Values.OfType<ReviewEntry>().Where(e => !_window.Contains(e.Serial)).OrderBy(e => e.Serial)];

    /// <summary>A body of a kind by its serial; null when there is none that can be read.</summary>
    public T? Find<T>(long? serial)
        where T : EntryBody
    {
        if (serial is not { } number)
        {
            return null;
        }

        if (!_known.TryGetValue(number, out var entry))
        {
            entry = _known[number] = _reader.Find(number) is { } row ? ReviewEntry.Of(row) : Carried.GetValueOrDefault(number);
        }

        return entry?.Body as T;
    }

    /// <summary>Takes a row that was found in another way; its body, when it is of the wanted kind.</summary>
    public T? Take<T>(EntryRow? row)
        where T : EntryBody
    {
        if (row is null)
        {
            return null;
        }

        if (!_known.TryGetValue(row.Serial, out var entry) || entry is null)
        {
            entry = _known[row.Serial] = ReviewEntry.Of(row);
        }

        return entry.Body as T;
    }

    /// <summary>The body of a row; null when it can't be read.</summary>
    public static EntryBody? Read(EntryRow row) => ReviewEntry.Of(row).Body;

    /// <summary>What the present ledger carries over from earlier ones; without hashes, which are not carried over.</summary>
    private Dictionary<long, ReviewEntry> Carried => _carried ??=
        _reader.Find(_reader.First) is { Kind: Kinds.RolledOver } first && Read(first) is RolledOverBody { IsEnd: false, Carried: { } carried } beginning
            ? carried.Zip(beginning.ReadCarried(), Row).ToDictionary(e => e.Serial)
            : [];

    private static ReviewEntry Row(JsonElement text, EntryBody body) =>
        new(new(body.Serial, body.At, body.Kind, body.Fixture, body.Revision, body.Client, body.Tag, text.GetRawText(), []), body);
}
