using Stockseat.Answers.Done;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Answers.State;

namespace Stockseat.Audit.Reviewing.Facts;

/// <summary>The entries of a window, each with what stood in the nests of its fixture right before it.</summary>
internal static class LoadWalk
{
    /// <summary>Walks through the window; entries of fixtures without a load are left out.</summary>
    public static IEnumerable<(EntryBody Entry, Load Load)> Of(ReviewFacts facts)
    {
        var loads = new Dictionary<string, Load>(facts.Review.LoadsBefore, StringComparer.Ordinal);
        foreach (var body in facts.Bodies.Where(b => b.Fixture is not null))
        {
            var load = loads.GetValueOrDefault(body.Fixture!);
            if (load is not null)
            {
                yield return (body, load);
            }

            if (After(body, load) is { } after)
            {
                loads[body.Fixture!] = after;
            }
            else
            {
                loads.Remove(body.Fixture!);
            }
        }
    }

    private static Load? After(EntryBody body, Load? load) => body switch
    {
        LoadedBody b => new(b.Serial, b.Lot) { Raw = [.. b.Full], Count = b.Count },
        EmptiedBody => null,
        DoneBody b when b.Confirmation is not null || load?.Open?.Answer == b.Answer =>
            load?.WithDone(b.Answer, PurposeNames.Find(b.Purpose) ?? Purpose.Pick, b.Nest[0], b.Nest[1], b.Serial),
        DroppedBody { Again: null } b => load?.WithDropped(b.Answer, b.Serial),
        AnswerBody b when b.Load == load?.Serial && load is not null => load with { Open = UnfinishedMove.Of(b) },
        _ => load,
    };
}
