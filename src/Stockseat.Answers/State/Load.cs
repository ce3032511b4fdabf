using System.Collections.Immutable;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.State;

/// <summary>
/// What stands in the nests of a fixture: as somebody stated it, and as the moves that were carried out have changed it since. Nests are taken row by row: 0,0,
/// then 1,0.
/// </summary>
/// <param name="Serial">The entry that stated it, which is also its id.</param>
/// <param name="Lot">The lot of its stock; null: none was named, or each nest has its own.</param>
public sealed record Load(long Serial, string? Lot)
{
    /// <summary>The nests in which raw stock waits to be picked.</summary>
    public ImmutableSortedSet<(int Row, int Column)> Raw { get; init; } = [];

    /// <summary>The nests into which something was placed.</summary>
    public ImmutableSortedSet<(int Row, int Column)> Placed { get; init; } = [];

    /// <summary>The entries that say that a move was carried out, by nest and purpose: the load rests on them.</summary>
    public ImmutableDictionary<(Purpose Purpose, int Column, int Row), long> Moves { get; init; } =
        ImmutableDictionary<(Purpose Purpose, int Column, int Row), long>.Empty;

    /// <summary>The answer whose move was neither carried out nor dropped; null: none.</summary>
    public OpenMove? Open { get; init; }

    /// <summary>The last answer whose move was dropped, with the entry that says so; null: none was.</summary>
    public (long Answer, long Serial)? Dropped { get; init; }

    /// <summary>The measurements of single nests.</summary>
    public ImmutableDictionary<(int Column, int Row), NestMeasurement> Measured { get; init; } =
        ImmutableDictionary<(int Column, int Row), NestMeasurement>.Empty;

    /// <summary>How many nests it had at first.</summary>
    public int Count { get; init; }

    /// <summary>The next nest for a purpose, of a layout; null: none is left.</summary>
    /// <param name="purpose">Pick: one in which raw stock waits. Place: an empty one.</param>
    /// <param name="columns">The columns of the layout.</param>
    /// <param name="rows">The rows of the layout.</param>
    /// <param name="after">The nest after which it is looked for; null: from the first one on.</param>
    public (int Column, int Row)? Next(Purpose purpose, int columns, int rows, (int Column, int Row)? after = null)
    {
        var from = after is { } a ? (a.Row, a.Column) : (-1, -1);
        foreach (var (row, column) in purpose == Purpose.Pick ? Raw : Empty(columns, rows))
        {
            if ((row, column).CompareTo(from) > 0)
            {
                return (column, row);
            }
        }

        return null;
    }

    /// <summary>How many nests are left for a purpose.</summary>
    public int Left(Purpose purpose, int columns, int rows) =>
        purpose == Purpose.Pick ? Raw.Count : (columns * rows) - Raw.Union(Placed).Count(n => n.Row < rows && n.Column < columns);

    /// <summary>The same after a move of it was carried out: a pick empties its nest, a place fills it.</summary>
    /// <param name="answer">The answer that was carried out.</param>
    /// <param name="purpose">Its purpose.</param>
    /// <param name="column">The nest's column.</param>
    /// <param name="row">The nest's row.</param>
    /// <param name="serial">The entry that says so.</param>
    public Load WithDone(long answer, Purpose purpose, int column, int row, long serial) => this with
    {
        Raw = purpose == Purpose.Pick ? Raw.Remove((row, column)) : Raw,
        Placed = purpose == Purpose.Place ? Placed.Add((row, column)) : Placed,
        Moves = Moves.SetItem((purpose, column, row), serial),
        Open = Open?.Answer == answer ? null : Open,
    };

    /// <summary>Whether it rests on the entry that says that a move was carried out.</summary>
    public bool RestsOn(Purpose purpose, int column, int row, long serial) => Moves.GetValueOrDefault((purpose, column, row)) == serial;

    /// <summary>The same after the move of an answer was dropped: its nest is as it was.</summary>
    public Load WithDropped(long answer, long serial) => this with { Open = Open?.Answer == answer ? null : Open, Dropped = (answer, serial) };

    private IEnumerable<(int Row, int Column)> Empty(int columns, int rows)
    {
        for (var row = 0; row < rows; row++)
        {
            for (var column = 0; column < columns; column++)
            {
                if (!Raw.Contains((row, column)) && !Placed.Contains((row, column)))
                {
                    yield return (row, column);
                }
            }
        }
    }
}

/// <summary>A move that was answered and of which nobody has said whether it was carried out.</summary>
/// <param name="Body">Its answer: when the ledger has rolled over since, it can't be found there any more.</param>
/// <param name="Purpose">Its purpose.</param>
/// <param name="Column">The nest's column.</param>
/// <param name="Row">The nest's row.</param>
public sealed record OpenMove(EntryBody Body, Purpose Purpose, int Column, int Row)
{
    /// <summary>The serial of its answer.</summary>
    public long Answer => Body.Serial;
}

/// <summary>What was measured of the stock in one nest.</summary>
/// <param name="Serial">The entry.</param>
/// <param name="Measurement">The measurement; null: the push was refused, and nothing counts for this nest until another one is taken.</param>
/// <param name="Why">Why there is none; null: there is one.</param>
public sealed record NestMeasurement(long Serial, StandingMeasurement? Measurement, string? Why);
