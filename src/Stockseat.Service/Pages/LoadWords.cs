using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Sheets.Numbers;

namespace Stockseat.Service.Pages;

/// <summary>What stands in the nests, in words.</summary>
public static class LoadWords
{
    /// <summary>The load of a fixture, how far it has come, and what is unfinished.</summary>
    public static string Of(FixtureState state)
    {
        if (state.Load is not { } load)
        {
            return "Nobody has said what stands in the nests.";
        }

        var next = load.Raw.Count == 0 ? "" : $"; the next is {load.Raw.Min.Column},{load.Raw.Min.Row}";
        var placed = load.Placed.Count == 0 ? "" : $"; {PrintedNumbers.Count(load.Placed.Count, "nest", "nests")} filled by a place";
        var open = load.Open is { } move
            ? $". Answer {PrintedNumbers.Whole(move.Answer)}, a {move.Purpose.Name()} at nest {move.Column},{move.Row}, is unfinished: "
                + "was its move carried out?"
            : ".";
        return $"{PrintedNumbers.Whole(load.Raw.Count)} of {PrintedNumbers.Count(load.Count, "nest", "nests")} with raw stock are left"
            + $"{(load.Lot is null ? "" : $", lot {load.Lot}")} (load {PrintedNumbers.Whole(load.Serial)}){next}{placed}{open}";
    }
}
