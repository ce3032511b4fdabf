using System.Globalization;
using System.Text;
using System.Text.Json;
using Stockseat.Answers.Records;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;

namespace Stockseat.Audit.Reviewing;

/// <summary>
/// Finds answers outside a window: of each fixture, and of each purpose and nest that the window's answers are for, the newest below a serial. An answer is in no index, so rows are
/// looked at as the bytes that they are, and only of one that may be wanted the JSON is read.
/// </summary>
internal sealed class EarlierAnswers
{
    /// <summary>How many serials are looked through.</summary>
    public const int LongestBack = 20_000;

    /// <summary>The longest text of a place: whatever a body has there beyond it is another one.</summary>
    private const int LongestPlace = 64;

    private readonly HashSet<AnswerKey> _open;

    /// <summary>The places that are wanted, as bodies have them, and of how many keys each.</summary>
    private readonly Dictionary<string, int> _places;
    private readonly Dictionary<string, byte[]> _unseen;

    /// <param name="keys">What the window's answers are for.</param>
    /// <param name="fixtures">The fixtures whose last answer is wanted.</param>
    public EarlierAnswers(IEnumerable<AnswerKey> keys, IEnumerable<string> fixtures)
    {
        (_open, _unseen) = ([.. keys], fixtures.Distinct(StringComparer.Ordinal).ToDictionary(f => f, Encoding.UTF8.GetBytes, StringComparer.Ordinal));
        _places = _open.CountBy(Place).ToDictionary(StringComparer.Ordinal);
    }

    /// <summary>The answers, the newest first.</summary>
    /// <param name="reader">The ledger.</param>
    /// <param name="above">The serial that they lie above.</param>
    /// <param name="below">The serial that they lie below.</param>
    public IReadOnlyList<AnswerBody> Find(LedgerReader reader, long above, long below)
    {
        var found = new List<AnswerBody>();
        if (below > above + 1)
        {
            reader.Downwards(below - 1, Math.Max(above + 1, below - LongestBack), Take);
        }

        return found;

        bool Take(in EntryBytes row)
        {
            if (row.Kind.SequenceEqual("answer"u8) && row.HasFixture && MayBeWanted(row)
                && Read(row) is { } answer && (Remove(AnswerKey.Of(answer)) | _unseen.Remove(answer.Fixture!)))
            {
                found.Add(answer);
            }

            return _open.Count + _unseen.Count > 0;
        }
    }

    private bool MayBeWanted(in EntryBytes row)
    {
        foreach (var fixture in _unseen.Values)
        {
            if (row.Fixture.SequenceEqual(fixture))
            {
                return true;
            }
        }

        // One search a row, however many places are wanted.
        if (row.Body.IndexOf("\"purpose\":"u8) is not (>= 0 and var at) || row.Body.Slice(at, Math.Min(LongestPlace, row.Body.Length - at)) is var text
            && text.IndexOf((byte)']') is var end && end < 0)
        {
            return false;
        }

        Span<char> place = stackalloc char[LongestPlace];
        return _places.GetAlternateLookup<ReadOnlySpan<char>>().ContainsKey(place[..Encoding.Latin1.GetChars(text[..(end + 1)], place)]);
    }

    private bool Remove(AnswerKey key)
    {
        if (!_open.Remove(key))
        {
            return false;
        }

        if (--_places[Place(key)] == 0)
        {
            _places.Remove(Place(key));
        }

        return true;
    }

    private static string Place(AnswerKey key) =>
        string.Create(CultureInfo.InvariantCulture, $"\"purpose\":\"{key.Purpose}\",\"nest\":[{key.Column},{key.Row}]");

    private static AnswerBody? Read(in EntryBytes row)
    {
        try
        {
            return BodyJson.Read(Kinds.Answer, row.Body) is AnswerBody { Fixture: not null } answer && answer.Serial == row.Serial ? answer : null;
        }
        catch (JsonException)
        {
            return null; // Verifying says so.
        }
    }
}
