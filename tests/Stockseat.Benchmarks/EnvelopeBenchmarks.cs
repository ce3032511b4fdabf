using BenchmarkDotNet.Attributes;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;

namespace Stockseat.Benchmarks;

/// <summary>
/// The diameters allowed on a bed of 40 by 40 nests with three jaws. Goal: at most 50 ms. The baseline is all gaps at one diameter; the solver
/// calculates only the gaps that matter.
/// </summary>
[MemoryDiagnoser]
public class EnvelopeBenchmarks
{
    private const double DiameterMetres = 0.080;

    private readonly Plan _plan = Of(40);

    [Benchmark(Baseline = true)]
    public int AllGaps() => Gaps.At(_plan, DiameterMetres).Count;

    [Benchmark]
    public Envelope Solved() => EnvelopeSolver.Solve(_plan, out var violated) ?? throw new InvalidOperationException($"{violated}");

    private static Plan Of(int count)
    {
        var nest = Nest.Pins(0.060, 0.012);
        _ = SeatSolver.TrySeat(nest, DiameterMetres / 2, out var taught);
        return new()
        {
            Nest = nest, Taught = taught, TaughtDiameterMetres = DiameterMetres, StandOffMetres = 0.0005,
            Columns = count, Rows = count, ColumnStep = new(0.150, 0), RowStep = new(0, 0.155),
            GapMetres = 0.002, Sensitivity = 3, HeldRadians = 5 * Math.PI / 180,
            Gripper = new()
            {
                Jaws = 3, JawWidthMetres = 0.016, JawThicknessMetres = 0.012, ClockingRadians = -Math.PI / 2, OpenByMetres = 0.012,
                StrokeMetres = (0.030, 0.200), PalmDiameterMetres = 0.050,
            },
        };
    }
}
