using System.Globalization;
using System.Text;
using System.Text.Json;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Verbs;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;

namespace Stockseat.Audit.Reviewing.Window;

/// <summary>
/// Finds answers outside a window: of each fixture, and of each purpose and nest that the window's answers are for, the newest below a serial. No index
/// has answers, so the raw bytes of rows are examined, and the JSON is read only for a row that may be wanted.
/// </summary>
internal sealed class EarlierAnswers
{
    /// <summary>How many serials are searched.</summary>
    public const int LongestBack = 20_000;

    /// <summary>How many serials are searched for the fixtures of a cell.</summary>
    private const int LongestBackOfCell = 5000;

    private readonly Dictionary<AnswerKey, byte[]> _open;
    private readonly Dictionary<string, byte[]> _unseen;

    /// <param name="keys">What the window's answers are for.</param>
    /// <param name="fixtures">The fixtures whose last answer is wanted.</param>
    public EarlierAnswers(IEnumerable<AnswerKey> keys, IEnumerable<string> fixtures) => (_open, _unseen) = (
        keys.Distinct().ToDictionary(
            k => k, k => Utf8(string.Create(CultureInfo.InvariantCulture, $"\"purpose\":\"{k.Purpose}\",\"nest\":[{k.Column},{k.Row}]"))),
        fixtures.Distinct(StringComparer.Ordinal).ToDictionary(f => f, Utf8, StringComparer.Ordinal));

    /// <summary>The fixtures for which a cell got answers not long before a serial.</summary>
    /// <param name="reader">The ledger.</param>
    /// <param name="cell">The cell.</param>
    /// <param name="below">The serial.</param>
    public static IReadOnlySet<string> FixturesOf(LedgerReader reader, string cell, long below)
    {
        // A name that JSON may escape can be written in several ways: then every answer is read.
        var (found, text) = (new HashSet<string>(StringComparer.Ordinal), JsonEncodedText.Encode(cell).Value == cell ? Utf8(cell) : []);
        reader.Downwards(below - 1, Math.Max(1, below - LongestBackOfCell), Take);
        return found;

        bool Take(in EntryBytes row)
        {
            if (IsAnswer(row) && row.Body.IndexOf(text) >= 0 && Read(row) is { } answer && answer.Cell == cell)
            {
                found.Add(answer.Fixture!);
            }

            return true;
        }
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
            if (IsAnswer(row) && MayBeWanted(row) && Read(row) is { } answer && (_open.Remove(AnswerKey.Of(answer)) | _unseen.Remove(answer.Fixture!)))
            {
                found.Add(answer);
            }

            return _open.Count + _unseen.Count > 0;
        }
    }

    private static bool IsAnswer(in EntryBytes row) => row.HasFixture && row.Kind.SequenceEqual("answer"u8);

    private bool MayBeWanted(in EntryBytes row)
    {
        foreach (var fixture in _unseen.Values)
        {
            if (row.Fixture.SequenceEqual(fixture))
            {
                return true;
            }
        }

        foreach (var text in _open.Values)
        {
            if (row.Body.IndexOf(text) >= 0)
            {
                return true;
            }
        }

        return false;
    }

    private static AnswerBody? Read(in EntryBytes row)
    {
        try
        {
            return BodyJson.Read(Kinds.Answer, row.Body) is AnswerBody { Fixture: not null } answer && answer.Serial == row.Serial ? answer : null;
        }
        catch (JsonException)
        {
            return null; // Verifying reports that.
        }
    }

    private static byte[] Utf8(string text) => Encoding.UTF8.GetBytes(text);
}
