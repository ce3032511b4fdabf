using System.Collections.Immutable;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.State;

/// <summary>
/// What was received, carried out and proven of one fixture since its revision came into force, or since a recheck missed: after a miss nothing that was
/// done before counts.
/// </summary>
public sealed record Progress
{
    /// <summary>So many received answers may wait to be carried out; the oldest is forgotten first. Our own choice.</summary>
    private const int MostReceived = 64;

    /// <summary>Every nest: entries of version 1 do not say which nest a confirmed answer was for.</summary>
    private const int AnyNest = -1;

    /// <summary>Nothing was received or done.</summary>
    public static Progress None { get; } = new();

    /// <summary>The entry since which it counts.</summary>
    public long Since { get; init; }

    /// <summary>The newest answer that was carried out for each purpose and nest, with the entry that says so.</summary>
    public ImmutableDictionary<(Purpose Purpose, int Column, int Row), (long Answer, long Serial)> Nests { get; init; } =
        ImmutableDictionary<(Purpose Purpose, int Column, int Row), (long Answer, long Serial)>.Empty;

    /// <summary>The shift of the last pick that was carried out; null when none was.</summary>
    public DoneShift? Picked { get; init; }

    /// <summary>The shift of the last place that was carried out; null when none was.</summary>
    public DoneShift? Placed { get; init; }

    /// <summary>Answers whose numbers were read back completely and that were not carried out yet, each with its confirmation.</summary>
    public ImmutableSortedDictionary<long, long> Received { get; init; } = ImmutableSortedDictionary<long, long>.Empty;

    /// <summary>The rechecks that passed and that a proof needs.</summary>
    public ImmutableList<PassedRecheck> Passed { get; init; } = [];

    /// <summary>The shift of the last answer of a purpose that was carried out.</summary>
    public DoneShift? Last(Purpose purpose) => purpose == Purpose.Pick ? Picked : Placed;

    /// <summary>Whether an answer for a nest was carried out.</summary>
    public bool IsDone(Purpose purpose, int column, int row) =>
        Nests.ContainsKey((purpose, column, row)) || Nests.ContainsKey((purpose, AnyNest, AnyNest));

    /// <summary>The same after an answer was received, with its numbers read back completely.</summary>
    public Progress WithReceived(long answer, long confirmation)
    {
        if (answer <= Since)
        {
            return this;
        }

        var received = Received.SetItem(answer, confirmation);
        return this with { Received = received.Count > MostReceived ? received.Remove(received.Keys.First()) : received };
    }

    /// <summary>The same after an answer was carried out.</summary>
    public Progress WithDone(long answer, Purpose purpose, int column, int row, DoneShift shift)
    {
        if (answer <= Since)
        {
            return this;
        }

        var next = this with { Nests = Nests.SetItem((purpose, column, row), (answer, shift.Serial)), Received = Received.Remove(answer) };
        return purpose == Purpose.Pick ? next with { Picked = shift } : next with { Placed = shift };
    }

    /// <summary>The same after a confirmation of version 1, which counted as carried out, whichever nest it was for.</summary>
    public Progress WithConfirmed(long answer, Purpose purpose, DoneShift shift) => WithDone(answer, purpose, AnyNest, AnyNest, shift);

    /// <summary>Whether an entry is one of those that it rests on.</summary>
    public bool RestsOn(long serial) =>
        Picked?.Serial == serial || Placed?.Serial == serial || Nests.Values.Any(n => n.Serial == serial) || Received.ContainsValue(serial)
        || Passed.Exists(p => p.Serial == serial);
}
