using Stockseat.Seating.Frames;
using Stockseat.Seating.Uncertainty;

namespace Stockseat.Fixtures.Revisions;

/// <summary>One direction in which the nests repeat.</summary>
/// <param name="Direction"><c>u</c>, <c>v</c> or <c>w</c>.</param>
/// <param name="Count">How many nests, 1 or more.</param>
/// <param name="PitchMetres">The pitch from nest to nest, in metres; negative: against the axis.</param>
public readonly record struct LayoutRow(char Direction, int Count, double PitchMetres);

/// <summary>How the nests of a fixture repeat: in no, one or two directions. Nest 0,0 carries the grid origin.</summary>
/// <param name="First">The first direction.</param>
/// <param name="Second">The second direction.</param>
public sealed record Layout(LayoutRow? First, LayoutRow? Second)
{
    /// <summary>A layout of one nest.</summary>
    public static Layout Single { get; } = new(null, null);

    /// <summary>How many nests the first direction has.</summary>
    public int Columns => First?.Count ?? 1;

    /// <summary>How many nests the second direction has.</summary>
    public int Rows => Second?.Count ?? 1;

    /// <summary>Whether the layout has a given nest.</summary>
    public bool Has(int column, int row) => column >= 0 && column < Columns && row >= 0 && row < Rows;

    /// <summary>The offset from nest 0,0 to a nest, in base, in metres.</summary>
    public Vector3 OffsetBase(in PlanFrame frame, int column, int row) =>
        Along(frame, First, column) + Along(frame, Second, row);

    /// <summary>The offset from nest 0,0 to a nest, in the plan's axes.</summary>
    public NestOffset OffsetPlan(int column, int row)
    {
        var (a, b) = ((First?.PitchMetres ?? 0) * column, (Second?.PitchMetres ?? 0) * row);
        double Along(char direction) => (First?.Direction == direction ? a : 0) + (Second?.Direction == direction ? b : 0);
        return new(Along('u'), Along('v'), Along('w'));
    }

    /// <summary>The nests at the ends of both directions, without 0,0: a quantity that grows with the distance is largest at one of them.</summary>
    public IEnumerable<(int Column, int Row)> Corners()
    {
        if (Columns > 1)
        {
            yield return (Columns - 1, 0);
        }

        if (Rows > 1)
        {
            yield return (0, Rows - 1);
        }

        if (Columns > 1 && Rows > 1)
        {
            yield return (Columns - 1, Rows - 1);
        }
    }

    private static Vector3 Along(in PlanFrame frame, LayoutRow? row, int index) => row is not { } r ? default : index * r.PitchMetres * r.Direction switch
    {
        'u' => frame.U,
        'v' => frame.V,
        _ => frame.W,
    };
}
