using Stockseat.Fixtures.Revisions;
using Stockseat.Fixtures.Tests.Support;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;
using Stockseat.Sheets.Drawings;

namespace Stockseat.Sheets.Tests.Drawings;

/// <summary>Plans to draw: some made by hand, and the demo's.</summary>
internal static class Plans
{
    public static Gripper ThreeJaws { get; } = new()
    {
        Jaws = 3, JawWidthMetres = 0.016, JawThicknessMetres = 0.012, ClockingRadians = Math.PI / 6, OpenByMetres = 0.012, StrokeMetres = (0.04, 0.115),
    };

    /// <summary>A bed of 3 × 2 nests of two pins, tight between the columns.</summary>
    public static Plan Pins { get; } = Of(Nest.Pins(0.06, 0.012), 0.08) with
    {
        Columns = 3, Rows = 2, ColumnStep = new(0.12, 0), RowStep = new(0, 0.13), Gripper = ThreeJaws, GapMetres = 0.002, StandOffMetres = 0.0003,
    };

    /// <summary>Everything unusual, each once.</summary>
    public static TheoryData<string> Odd => [.. OddOnes.Keys];

    public static Dictionary<string, (Plan Plan, double[] Diameters)> OddOnes { get; } = new()
    {
        ["no gripper"] = (Pins with { Gripper = null }, []),
        ["one nest alone"] = (Of(Nest.Pins(0.06, 0.012), 0.08), []),
        ["40 x 40 nests"] = (Pins with { Columns = 40, Rows = 40 }, []),
        ["columns against the axis"] = (Pins with { ColumnStep = new(-0.12, 0) }, []),
        ["faces without an end"] = (Of(Nest.Vee(Math.PI / 2), 0.05) with { Columns = 4, ColumnStep = new(0.2, 0), Gripper = ThreeJaws }, [0.04, 0.06]),
        ["tiny stock"] = (Of(Nest.Pins(0.0008, 0.0003), 0.001) with { Columns = 2, ColumnStep = new(0.003, 0), GapMetres = 0.0001 }, [0.0009, 0.0012]),
        ["huge stock"] = (Of(Nest.Pins(2, 0.5), 3) with { Columns = 2, ColumnStep = new(6, 0), GapMetres = 0.1 }, [2, 4.9]),
        ["tiny beside huge"] = (Pins, [0.0005, 3]),
        ["nearly the same six"] = (Pins, [0.080001, 0.08001, 0.0801, 0.0802, 0.0803, 0.0804]),
        ["no seat at what is asked"] = (Pins, [0.01]),
        ["lying bars"] = (Of(Nest.Pins(0.09, 0.05), 0.08) with { Columns = 3, AlongWMetres = 0.45, StockLengthMetres = 0.44, GapMetres = 0.02 }, []),
        ["a palm, a post and a rail"] = (Pins with
        {
            Gripper = ThreeJaws with { PalmDiameterMetres = 0.09 },
            Obstacles = [new("door post <1>", new(0.32, 0.02), new(0.32, 0.02), 0.02, null), new("rail", new(-3, -0.05), new(3, -0.05), 0.01, null)],
        }, [0.07, 0.09]),
        ["jaws in each other's way"] = (Pins with { ColumnStep = new(0.05, 0), RowStep = new(0, 0.05) }, []),
        ["finished among raw"] = (Pins with { NeighbourDiameterMetres = 0.1 }, [0.07]),
        ["nests 9 m apart"] = (Pins with { ColumnStep = new(9, 0) }, []),
    };

    public static Plan Of(Nest nest, double taughtMetres)
    {
        Assert.Equal(SeatFault.None, SeatSolver.TrySeat(nest, taughtMetres / 2, out var seat));
        return new() { Nest = nest, Taught = seat, TaughtDiameterMetres = taughtMetres };
    }

    public static DrawnPlan Drawn(string odd) => DrawnPlan.Of(OddOnes[odd].Plan, OddOnes[odd].Diameters);

    public static Revision Demo(string file) => Repository.Good(Repository.Text(file));

    public static DrawnPlan Drawn(Revision revision, params double[] diameters) => DrawnPlan.Of(revision.PlanFor(place: false), diameters);
}
