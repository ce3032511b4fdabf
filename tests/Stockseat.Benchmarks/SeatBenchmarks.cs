using BenchmarkDotNet.Attributes;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Positions;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;

namespace Stockseat.Benchmarks;

/// <summary>
/// Where a blank's centre goes: seat, limits, stand-off, shift, correction. Goal: at most 100 ns. The baseline is only the height over two
/// equal pins, by Pythagoras, without any check.
/// </summary>
[MemoryDiagnoser]
public class SeatBenchmarks
{
    private const double DiameterMetres = 0.0815;

    private readonly Revision _revision = Bed.Revision;
    private readonly double _pinRadius;
    private readonly double _halfSpacing;
    private double _diameter = DiameterMetres; // not a constant: nothing can be calculated beforehand

    public SeatBenchmarks()
    {
        var (first, second) = (_revision.Nest.First, _revision.Nest.Second);
        (_halfSpacing, _pinRadius) = ((first.Point - second.Point).Length / 2, first.RadiusMetres);
    }

    [Benchmark(Baseline = true)]
    public double Pythagoras() => Height(_diameter) - Height(_revision.TaughtDiameterMetres);

    [Benchmark]
    public Correction Located()
    {
        if (Fit.Judge(_revision, _diameter, Purpose.Pick, out var placed) is { } refusal)
        {
            throw new InvalidOperationException(refusal.Text);
        }

        return Correction.Of(_revision.TaughtOrigin, _revision.Frame, _revision.Layout.OffsetBase(_revision.Frame, 2, 1), placed.ShiftPlan);
    }

    private double Height(double diameter)
    {
        var reach = diameter / 2 + _pinRadius;
        return Math.Sqrt(reach * reach - _halfSpacing * _halfSpacing);
    }
}
