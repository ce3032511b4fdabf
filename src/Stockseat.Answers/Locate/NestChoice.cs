using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Locate;

/// <summary>Chooses the next nest of a load.</summary>
internal static class NestChoice
{
    /// <summary>Why there is no next nest now; null when there is one, which is then in the ask.</summary>
    /// <param name="ask">The ask; gets the nest.</param>
    /// <param name="state">The fixture, with a revision in force.</param>
    public static Refusal? Take(ref LocateAsk ask, FixtureState state)
    {
        if (state.Load is not { } load)
        {
            return Unserved.NoLoad(ask.Fixture);
        }

        if (load.Open is { } open && !ask.IsTrial)
        {
            return Refusal.Of(
                Reason.MoveUnfinished,
                $"answer {Whole(open.Answer)}, a {open.Purpose.Name()} at nest {open.Column},{open.Row} of {ask.Fixture}, was given, and nobody has said "
                    + "whether its move was carried out",
                ("serial", Whole(open.Answer)), ("nest", $"{open.Column},{open.Row}"));
        }

        var layout = state.InForce!.Layout;
        if (load.Next(ask.Purpose, layout.Columns, layout.Rows, ask.After is [var column, var row] ? (column, row) : null) is not { } next)
        {
            return Refusal.Of(
                Reason.LoadEmpty,
                ask.Purpose == Purpose.Pick
                    ? $"no nest of {ask.Fixture} with raw stock is left of load {Whole(load.Serial)}, which had {Whole(load.Count)}"
                    : $"no nest of {ask.Fixture} is empty",
                ("load", Whole(load.Serial)));
        }

        ask = ask with { Column = next.Column, Row = next.Row };
        return null;
    }

    /// <summary>How many nests are left after the one that was chosen.</summary>
    public static int LeftAfter(LocateAsk ask, FixtureState state, Layout layout) => state.Load!.Left(ask.Purpose, layout.Columns, layout.Rows) - 1;

    /// <summary>
    /// The largest diameter that stands in another nest now, as it was measured; null when every nest has the same measurement, so that the envelope has
    /// judged it.
    /// </summary>
    public static double? Beside(LocateAsk ask, FixtureState state)
    {
        if (!ask.IsNext || state.Load is not { Measured.IsEmpty: false } load)
        {
            return null;
        }

        double? largest = load.Raw.Any(n => !load.Measured.ContainsKey((n.Column, n.Row)) && (n.Column, n.Row) != (ask.Column, ask.Row))
            ? state.Measurement?.DiameterMetres : null;
        foreach (var (nest, measured) in load.Measured)
        {
            if (nest != (ask.Column, ask.Row) && load.Raw.Contains((nest.Row, nest.Column)) && measured.Measurement?.DiameterMetres is { } there
                && (largest is null || there > largest))
            {
                largest = there;
            }
        }

        return largest;
    }

    private static string Whole(long number) => number.ToString(CultureInfo.InvariantCulture);
}
