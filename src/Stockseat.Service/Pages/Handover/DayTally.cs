using Stockseat.Answers.Done;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Notes;

namespace Stockseat.Service.Pages.Handover;

/// <summary>What the entries of the last hours add up to. Entries are added from the newest to the oldest.</summary>
public sealed class DayTally
{
    private readonly Dictionary<(string Fixture, string? Lot), LotOfDay> _lots = [];
    private readonly Dictionary<(string Fixture, string Asked, string Reason), RefusedOfDay> _refused = [];
    private readonly List<NoteBody> _notes = [];
    private readonly HashSet<long> _done = [];

    /// <summary>The kinds of the entries that count.</summary>
    public static IReadOnlyList<string> CountedKinds { get; } = [Kinds.Measurement, Kinds.Answer, Kinds.Refusal, Kinds.Done, Kinds.Note];

    /// <summary>The lots, the newest first.</summary>
    public IReadOnlyList<LotOfDay> Lots => [.. _lots.Values.OrderByDescending(l => l.Newest)];

    /// <summary>What was refused, the most frequent first.</summary>
    public IReadOnlyList<RefusedOfDay> Refused => [.. _refused.Values.OrderByDescending(r => r.Count).ThenByDescending(r => r.Last.Serial)];

    /// <summary>The notes, the newest first.</summary>
    public IReadOnlyList<NoteBody> Notes => _notes;

    /// <summary>How many entries were looked at.</summary>
    public long Looked { get; set; }

    /// <summary>The oldest instant that was looked at, when there were too many entries to go on; null: nothing was left out.</summary>
    public string? CutAt { get; set; }

    /// <summary>Adds an entry.</summary>
    public void Add(EntryBody? body)
    {
        switch (body)
        {
            case MeasurementBody m:
                Change(m.Fixture ?? "", m.Lot, m, l => l with
                {
                    Measured = l.Measured + 1, Least = Math.Min(l.Least, m.Diameter), Greatest = Math.Max(l.Greatest, m.Diameter),
                });
                break;
            case AnswerBody a:
                var isDone = _done.Contains(a.Serial);
                Change(a.Fixture ?? "", a.Lot, a, l => l with { Answered = l.Answered + 1, Done = l.Done + (isDone ? 1 : 0) });
                break;
            case DoneBody d:
                _done.Add(d.Answer);
                break;
            case NoteBody n:
                _notes.Add(n);
                break;
            case RefusalBody r:
                var key = (r.Fixture ?? "", r.Asked, r.Reason);
                _refused[key] = _refused.TryGetValue(key, out var before) ? before with { Count = before.Count + 1 } : new(r, 1);
                break;
        }
    }

    private void Change(string fixture, string? lot, EntryBody body, Func<LotOfDay, LotOfDay> change)
    {
        var before = _lots.GetValueOrDefault((fixture, lot)) ?? new(fixture, lot, body.Serial);
        _lots[(fixture, lot)] = change(before);
    }
}

/// <summary>What was done with a lot in a fixture.</summary>
/// <param name="Fixture">The fixture.</param>
/// <param name="Lot">The lot; null: none was named.</param>
/// <param name="Newest">The newest entry.</param>
public sealed record LotOfDay(string Fixture, string? Lot, long Newest)
{
    /// <summary>How many measurements were taken.</summary>
    public long Measured { get; init; }

    /// <summary>The least measured diameter, in metres.</summary>
    public double Least { get; init; } = double.PositiveInfinity;

    /// <summary>The greatest measured diameter, in metres.</summary>
    public double Greatest { get; init; }

    /// <summary>How many answers were served.</summary>
    public long Answered { get; init; }

    /// <summary>How many of them were carried out.</summary>
    public long Done { get; init; }
}

/// <summary>What was refused for one reason.</summary>
/// <param name="Last">The newest such refusal.</param>
/// <param name="Count">How many there were.</param>
public sealed record RefusedOfDay(RefusalBody Last, long Count);
