using Stockseat.Answers.Deciding;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Service.Watching;

/// <summary>
/// Finds what differs between the folders and what the situation holds of them. It compares with the situation and never with a memory of its own, so what
/// an adoption read meanwhile, or the ledger did not take, is found again at the next look.
/// </summary>
public sealed class FolderLooks(IFolders folders, WatchIntervals intervals, TimeProvider time)
{
    private readonly Dictionary<string, (FolderStamp? Stamp, FixtureFolder Held)> _seen = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Settling> _unsettled = new(StringComparer.Ordinal);
    private int _turn;

    /// <summary>The fixtures whose folders read otherwise than they are held: look at them again soon.</summary>
    public IReadOnlyCollection<string> Unsettled => _unsettled.Keys;

    /// <summary>Looks at all folders: what shows of each, and a part of them in full.</summary>
    /// <returns>The changes that have settled.</returns>
    public IReadOnlyList<FolderChange> LookAtAll(Situation situation)
    {
        _turn = (_turn + 1) % intervals.PollsToReadAll;
        var held = situation.Fixtures.Where(f => f.Folder is not null).Select(f => f.Fixture);
        return Look(situation, folders.Names().Concat(held), thorough: false);
    }

    /// <summary>Looks at these folders, in full.</summary>
    /// <returns>The changes that have settled.</returns>
    public IReadOnlyList<FolderChange> LookAt(Situation situation, IEnumerable<string> fixtures) => Look(situation, fixtures, thorough: true);

    private List<FolderChange> Look(Situation situation, IEnumerable<string> fixtures, bool thorough)
    {
        var changes = new List<FolderChange>();
        foreach (var fixture in fixtures.Concat(_unsettled.Keys).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal).ToArray())
        {
            var held = situation.Find(fixture)?.Folder;
            var stamp = folders.Stamp(fixture); // before it is read: what is written after that shows next time
            if (!thorough && !_unsettled.ContainsKey(fixture) && !IsItsTurn(fixture) && held is not null && stamp is not null
                && _seen.GetValueOrDefault(fixture) is { Held: { } read } seen && ReferenceEquals(read, held) && stamp.SameAs(seen.Stamp))
            {
                continue;
            }

            if (Read(fixture, held, stamp) is { } change)
            {
                changes.Add(change);
            }
        }

        return changes;
    }

    private FolderChange? Read(string fixture, FixtureFolder? held, FolderStamp? stamp)
    {
        var settling = _unsettled.GetValueOrDefault(fixture);
        var now = folders.Read(fixture, held, settling?.Folder);
        if (now is null ? held is null : now.SameAs(held))
        {
            _unsettled.Remove(fixture);
            if (held is null)
            {
                _seen.Remove(fixture);
            }
            else
            {
                _seen[fixture] = (stamp, held);
            }

            return null;
        }

        _unsettled[fixture] = settling ??= new(intervals, time);
        return settling.See(now) ? new(fixture, held, now) : null; // It stays unsettled until it is held.
    }

    private bool IsItsTurn(string fixture) => (uint)fixture.GetHashCode(StringComparison.Ordinal) % intervals.PollsToReadAll == _turn;
}
