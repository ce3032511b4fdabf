using Stockseat.Answers.Entries;
using Stockseat.Answers.State;

namespace Stockseat.Audit.Showing;

/// <summary>What stands in the nests, in words.</summary>
public static class LoadText
{
    /// <summary>The load, how far it has come, and what is unfinished.</summary>
    public static string Of(Load load) => FormattableString.Invariant($"{load.Raw.Count} of {Nests(load.Count)} with raw stock are left")
        + (load.Lot is null ? "" : $", lot {load.Lot}") + FormattableString.Invariant($" (load {load.Serial})")
        + (load.Raw is [var (row, column), ..] && load.Open is null ? FormattableString.Invariant($"; the next is {column},{row}") : "")
        + (load.Placed.Count == 0 ? "" : $"; {Nests(load.Placed.Count)} filled by a place")
        + (load.Open is { } move
            ? FormattableString.Invariant($"; answer {move.Answer}, a {move.Purpose.Name()} at nest {move.Column},{move.Row}, is unfinished") : "");

    private static string Nests(int count) => FormattableString.Invariant($"{count} {(count == 1 ? "nest" : "nests")}");
}
