using System.Text.Json;
using Stockseat.Answers.Entries;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Plant.Evidence;

/// <summary>What a review reads beside the entries of its minutes: what they are compared with, what they name, and what came of them.</summary>
/// <param name="part">The ledger; it has the entries from the beginning up to the one after the minutes.</param>
/// <param name="question">What was asked.</param>
/// <param name="first">The entry with which the situation begins: a snapshot, or the ledger's first.</param>
/// <param name="above">The entry before the minutes.</param>
/// <param name="last">Their last entry.</param>
internal sealed class MinutesAround(SparseLedger part, ReviewQuestion question, long first, long above, long last)
{
    /// <summary>How many entries before the minutes tell which fixtures a cell uses (<c>EarlierAnswers.LongestBackOfCell</c>).</summary>
    private const int BackOfCell = 5000;

    /// <summary>How many measurements, and how many confirmations, of a fixture a review reads.</summary>
    private const int Measurements = 100;
    private const int Confirmations = 200;

    /// <summary>How many entries are searched for earlier answers at first.</summary>
    private const int FirstLook = 500;

    private List<object[]> Window => [.. part.Rows.Where(r => Serial(r) > above && Serial(r) <= last)];

    /// <summary>Whether the minutes have an entry up to the instant, from which what was in force then is known.</summary>
    public bool HasEntryUpTo(DateTimeOffset at)
    {
        var from = at.Moved(-question.Before);
        return question.Serial is not null || Window.Any(r => EntryTime.TryParse((string)r[StoredRow.At], out var its) && its >= from && its <= at);
    }

    /// <summary>Adds what is before and after them.</summary>
    public async Task Complete(int reach, CancellationToken token)
    {
        var floor = Math.Max(part.Ledger.First, above + 1 - reach);
        var below = first;
        if (question.Cell is not null)
        {
            below = Math.Max(floor, Math.Min(first, above - BackOfCell));
            await part.Add("kind = 'answer' AND serial >= $2 AND serial < $3", token, below, first);
        }

        var window = Window;
        var fixtures = Fixtures(window);
        var oldest = await Answers(window, fixtures, below, floor, token);
        await part.Add("kind IN ('measurement', 'confirmation', 'emptied') AND serial >= $2 AND serial < $3", token, oldest, first);
        foreach (var fixture in fixtures)
        {
            await part.Add("kind = 'emptied' AND fixture = $2 AND serial < $3 ORDER BY serial DESC LIMIT 1", token, fixture, oldest);
            if (window.Any(r => (string)r[StoredRow.Kind] == Kinds.Measurement && fixture.Equals(r[StoredRow.Fixture])))
            {
                await part.Add(
                    "kind = 'measurement' AND fixture = $2 AND serial >= $3 AND serial < $4 ORDER BY serial DESC LIMIT $5", token,
                    fixture, floor, oldest, Measurements);
            }

            await part.Add(
                "kind = 'confirmation' AND fixture = $2 AND serial > $3 AND serial <= $4 ORDER BY serial LIMIT $5", token,
                fixture, last, last + reach, Confirmations + window.Count);
        }
    }

    /// <summary>All serials that the entries name, and that the beginning carries; a number that means something else adds a row that nobody reads.</summary>
    public IEnumerable<long> Named() => part.Rows.Where(r => Serial(r) >= first && Serial(r) <= last + 1).SelectMany(row =>
    {
        try
        {
            using var body = JsonDocument.Parse((string)row[StoredRow.Body]);
            return body.RootElement.ValueKind == JsonValueKind.Object ? [.. Numbers(body.RootElement)] : (List<long>)[];
        }
        catch (JsonException)
        {
            return []; // The review says that it can't be read.
        }
    }).Where(s => s > 0);

    private static IEnumerable<long> Numbers(JsonElement body)
    {
        foreach (var property in body.EnumerateObject())
        {
            if (property.Value.ValueKind == JsonValueKind.Number && property.Value.TryGetInt64(out var number))
            {
                yield return number;
            }
            else if (property.NameEquals("carried"u8) && property.Value.ValueKind == JsonValueKind.Array)
            {
                foreach (var carried in property.Value.EnumerateArray().Where(c => c.ValueKind == JsonValueKind.Object))
                {
                    foreach (var named in Numbers(carried))
                    {
                        yield return named;
                    }
                }
            }
        }
    }

    /// <summary>
    /// Adds answers until each fixture has one before the minutes, and each nest for which the minutes have an answer; returns down to where was searched.
    /// </summary>
    private async Task<long> Answers(List<object[]> window, HashSet<string> fixtures, long below, long floor, CancellationToken token)
    {
        var wanted = window.Select(Key).OfType<string>().Concat(fixtures).ToHashSet(StringComparer.Ordinal);
        Found(part.Rows.Where(r => Serial(r) >= below && Serial(r) <= above));
        for (var size = FirstLook; wanted.Count > 0 && below > floor; size *= 2)
        {
            var from = Math.Max(floor, below - size);
            await part.Add("kind = 'answer' AND serial >= $2 AND serial < $3", token, from, below);
            Found(part.Rows.Where(r => Serial(r) >= from && Serial(r) < below));
            below = from;
        }

        return below;

        void Found(IEnumerable<object[]> rows)
        {
            foreach (var row in rows)
            {
                if (Key(row) is { } key)
                {
                    wanted.Remove(key);
                    wanted.Remove((string)row[StoredRow.Fixture]);
                }
            }
        }
    }

    private HashSet<string> Fixtures(List<object[]> window) =>
    [
        .. window.Concat(question.Cell is null ? [] : part.Rows.Where(r => Serial(r) <= above && (string)r[StoredRow.Kind] == Kinds.Answer))
            .Select(r => r[StoredRow.Fixture]).OfType<string>(),
        .. question.Fixture is { } asked ? [asked] : (string[])[],
    ];

    /// <summary>What an answer is for: fixture, purpose and nest, which are compared with each other; null: it is no answer.</summary>
    private static string? Key(object[] row)
    {
        if ((string)row[StoredRow.Kind] != Kinds.Answer || row[StoredRow.Fixture] is not string fixture)
        {
            return null;
        }

        try
        {
            using var body = JsonDocument.Parse((string)row[StoredRow.Body]);
            return body.RootElement.TryGetProperty("purpose", out var purpose) && body.RootElement.TryGetProperty("nest", out var nest)
                ? $"{fixture}\n{purpose.GetRawText()}\n{nest.GetRawText()}" : null;
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return null;
        }
    }

    private static long Serial(object[] row) => (long)row[StoredRow.Serial];
}
