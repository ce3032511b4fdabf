using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Service.Watching;

/// <summary>
/// Finds what differs between the folders and what the situation knows about them. It compares with the situation and never with a memory of its own, so a
/// change that an adoption read meanwhile, or that the ledger did not take, is found again at the next look.
/// </summary>
public sealed class FolderLooks(BoundedFolders folders, WatchIntervals intervals, TimeProvider time)
{
    private readonly Dictionary<string, (FolderStamp? Stamp, FixtureFolder Held)> _seen = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Settling> _unsettled = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Task<Seen?>> _late = new(StringComparer.Ordinal);
    private int _turn;

    /// <summary>What a look saw.</summary>
    private sealed record Seen(FolderStamp? Stamp, FixtureFolder? Folder);

    /// <summary>The fixtures whose folders differ from what is known: look at them again soon.</summary>
    public IReadOnlyCollection<string> Unsettled => _unsettled.Keys;

    /// <summary>Whether a look takes a little longer: ask for it again soon. One that hangs is asked for at the next poll.</summary>
    public bool IsLate => _late.Keys.Any(f => !folders.IsHung(f));

    /// <summary>Looks at all folders: at the outside of each, and at some of them in full.</summary>
    /// <param name="situation">What is known about them.</param>
    /// <param name="names">The names of those that are there.</param>
    /// <param name="stop">Ends it.</param>
    /// <returns>The changes that have settled.</returns>
    public Task<IReadOnlyList<FolderChange>> LookAtAll(Situation situation, IEnumerable<string> names, CancellationToken stop)
    {
        _turn = (_turn + 1) % intervals.PollsToReadAll;
        var held = situation.Fixtures.Where(f => f.Folder is not null).Select(f => f.Fixture);
        return Look(situation, names.Concat(held), thorough: false, stop);
    }

    /// <summary>Looks at these folders, in full.</summary>
    /// <returns>The changes that have settled.</returns>
    public Task<IReadOnlyList<FolderChange>> LookAt(Situation situation, IEnumerable<string> fixtures, CancellationToken stop) =>
        Look(situation, fixtures, thorough: true, stop);

    private async Task<IReadOnlyList<FolderChange>> Look(Situation situation, IEnumerable<string> fixtures, bool thorough, CancellationToken stop)
    {
        var changes = new List<FolderChange>();
        foreach (var fixture in fixtures.Concat(_unsettled.Keys).Concat(_late.Keys).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal).ToArray())
        {
            var held = situation.Find(fixture)?.Folder;
            var seen = await See(fixture, held, thorough, stop);
            if (seen is null && folders.IsHung(fixture))
            {
                _unsettled.Remove(fixture);
                var hung = folders.Hung(fixture, held);
                changes.AddRange(hung.SameAs(held) ? [] : [new FolderChange(fixture, held, hung)]);
            }
            else if (seen is not null && Judge(fixture, held, seen) is { } change)
            {
                changes.Add(change);
            }
        }

        return changes;
    }

    /// <summary>
    /// One look, on a thread of its own. Null: nothing differs, or the look is not over; then the others come first, and this one at the next look.
    /// </summary>
    private async Task<Seen?> See(string fixture, FixtureFolder? held, bool thorough, CancellationToken stop)
    {
        if (!_late.Remove(fixture, out var look))
        {
            var before = thorough || _unsettled.ContainsKey(fixture) || IsItsTurn(fixture) || held is null
                || _seen.GetValueOrDefault(fixture) is not { Held: { } read } seen || !ReferenceEquals(read, held) ? null : seen.Stamp;
            var known = _unsettled.GetValueOrDefault(fixture)?.Folder;
            look = folders.TryBegin(fixture, f => LookAt(f, fixture, before, held, known));
            if (look is null)
            {
                return null; // An adoption looks at it.
            }

            await folders.Moment(look, stop);
        }

        if (look.IsCompleted)
        {
            return await look;
        }

        _late[fixture] = look;
        return null;
    }

    private static Seen? LookAt(IFolders folders, string fixture, FolderStamp? before, FixtureFolder? held, FixtureFolder? known)
    {
        var stamp = folders.Stamp(fixture); // before it is read: what is written afterwards is found next time
        return before is not null && before.SameAs(stamp) ? null : new(stamp, folders.Read(fixture, held, known));
    }

    private FolderChange? Judge(string fixture, FixtureFolder? held, Seen seen)
    {
        if (seen.Folder is { } now ? now.SameAs(held) : held is null)
        {
            _unsettled.Remove(fixture);
            if (held is null)
            {
                _seen.Remove(fixture);
            }
            else
            {
                _seen[fixture] = (seen.Stamp, held);
            }

            return null;
        }

        if (!_unsettled.TryGetValue(fixture, out var settling))
        {
            _unsettled[fixture] = settling = new(intervals, time);
        }

        return settling.See(seen.Folder) ? new(fixture, held, seen.Folder) : null; // It stays unsettled until the situation knows it.
    }

    private bool IsItsTurn(string fixture) => (uint)fixture.GetHashCode(StringComparison.Ordinal) % intervals.PollsToReadAll == _turn;
}
