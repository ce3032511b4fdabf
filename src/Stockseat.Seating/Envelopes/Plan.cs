using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Envelopes;

/// <summary>
/// Everything about a fixture and its gripper that limits the diameter: the nests around the one that is worked at, as seen from it. Only stated values count:
/// null limits nothing. The layout is regular, so every pair of nests of the fixture is a pair of offsets here, and the fullest neighbourhood is judged at
/// once.
/// </summary>
public sealed record Plan
{
    /// <summary>The smallest and the largest diameter that are looked at where nothing else binds, in metres.</summary>
    public static readonly (double From, double To) Reach = (0.0005, 5);

    /// <summary>
    /// A value beyond a limit by no more than this counts as at the limit: in doubles the sensitivity of a 60° vee, exactly 2, comes out a little above 2, and
    /// 0.1 + 0.008 a little above 0.108.
    /// </summary>
    public const double Rounding = 1e-12;

    public required Nest Nest { get; init; }

    /// <summary>The seat at the taught diameter.</summary>
    public required Seat Taught { get; init; }

    public required double TaughtDiameterMetres { get; init; }

    /// <summary>The stand-off for the purpose, in metres.</summary>
    public double StandOffMetres { get; init; }

    /// <summary>The columns and rows of the layout.</summary>
    public int Columns { get; init; } = 1;

    public int Rows { get; init; } = 1;

    /// <summary>The offset from column to column, in the plan, in metres; zero when columns repeat along w.</summary>
    public PlanVector ColumnStep { get; init; }

    /// <summary>The offset from row to row, in the plan, in metres; zero when rows repeat along w.</summary>
    public PlanVector RowStep { get; init; }

    /// <summary>The offset from nest to nest along w, for lying bars, in metres; 0 when no direction repeats along w.</summary>
    public double AlongWMetres { get; init; }

    /// <summary>How high the locators are above the ground of the plan, in metres; null: not stated, so that anything may meet them.</summary>
    public double? LocatorTopMetres { get; init; }

    public Gripper? Gripper { get; init; }

    public IReadOnlyList<Obstacle> Obstacles { get; init; } = [];

    /// <summary>The length of the stock along w, in metres; null: not stated.</summary>
    public double? StockLengthMetres { get; init; }

    /// <summary>The density of the stock, in kg/m³; null: not stated.</summary>
    public double? Density { get; init; }

    /// <summary>The diameter of the stock in all other nests, in metres; null: the same diameter. A finished piece is set down among raw ones.</summary>
    public double? NeighbourDiameterMetres { get; init; }

    public (double From, double To)? StatedMetres { get; init; }

    public double? GapMetres { get; init; }

    public double? ShiftMetres { get; init; }

    public double? Sensitivity { get; init; }

    public double HeldRadians { get; init; }

    public double? PayloadKilograms { get; init; }
}
