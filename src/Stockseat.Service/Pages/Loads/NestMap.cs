using Stockseat.Answers.State;
using Stockseat.Seating.Quantities;

namespace Stockseat.Service.Pages.Loads;

/// <summary>The nests of a load as they lie in the plan.</summary>
internal static class NestMap
{
    /// <summary>More nests than these are not shown: nobody finds one among them.</summary>
    private const int Most = 400;

    /// <summary>The rows, the highest one first, as a plan has them; none when there is no load, or too many nests.</summary>
    public static IReadOnlyList<NestRow> Of(FixtureState state, LengthUnit unit) =>
        state is not { Load: { } load, InForce.Layout: var layout } || layout.Columns * (long)layout.Rows > Most ? []
        : [.. Enumerable.Range(0, layout.Rows).Reverse().Select(row => new NestRow(
            row, [.. Enumerable.Range(0, layout.Columns).Select(column => Shown(load, column, row, unit))]))];

    private static ShownNest Shown(Load load, int column, int row, LengthUnit unit)
    {
        var isOpen = load.Open is { } open && (open.Column, open.Row) == (column, row);
        var isNext = load.Open is null && load.Raw is [var next, ..] && next == (row, column);
        var what = load.Raw.Contains((row, column)) ? "raw" : load.Placed.Contains((row, column)) ? "placed" : "empty";
        var own = what == "raw" && load.Measured.GetValueOrDefault((column, row)) is { } measured
            ? measured.Measurement is { } m ? $" {unit.FixedText(m.DiameterMetres)}" : " not measured" : "";
        return new($"{what}{own}{(isOpen ? ", unfinished" : isNext ? ", next" : "")}", isOpen || isNext);
    }
}

/// <summary>A row of nests.</summary>
/// <param name="Number">Its number, along v.</param>
/// <param name="Nests">Its nests, along u.</param>
public sealed record NestRow(int Number, IReadOnlyList<ShownNest> Nests);

/// <summary>A nest.</summary>
/// <param name="Text">What is in it, and whether it is next.</param>
/// <param name="Matters">Whether its move is unfinished, or it is next.</param>
public sealed record ShownNest(string Text, bool Matters);
