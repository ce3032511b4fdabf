using Stockseat.Answers.Locate;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;
using Stockseat.Answers.Tests.Support;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Tests.State;

public sealed class ProofTests
{
    private const string Grid = """[ { "direction": "u", "count": 6, "pitch": "125 mm" }, { "direction": "v", "count": 4, "pitch": "130 mm" } ]""";

    private readonly Bench _bench = Bench.Serving(Revisions.Good(layout: Grid, limits: """{ "recheck": "1 mm", "diameter": [ "60 mm", "100 mm" ] }"""));

    [Fact]
    public void At_first_a_master_is_lacking_in_nest_0_0_and_in_each_far_nest() => Assert.Equal(
        ["seat a master in nest 0,0", "seat a master in nest 5,0", "seat a master in nest 0,3"], Lacks());

    [Fact]
    public void The_second_master_differs_by_a_fifth_of_the_range()
    {
        Pass(0.08, 0, 0);
        Assert.Equal("seat a master of 72 mm or less, or of 88 mm or more, in nest 0,0", Lacks()[0]);
        Pass(0.0879, 0, 0);
        Assert.Equal("seat a master of 79.9 mm or less, or of 88 mm or more, in nest 0,0", Lacks()[0]);
        Pass(0.088, 0, 0);
        Assert.DoesNotContain(Lacks(), l => l.EndsWith("0,0", StringComparison.Ordinal));
    }

    [Fact]
    public void A_range_leaves_only_one_side_where_the_other_lies_outside()
    {
        Pass(0.099, 0, 0);

        Assert.Equal("seat a master of 91 mm or less in nest 0,0", Lacks()[0]);
    }

    [Fact]
    public void Proven_it_stays_until_a_miss_or_an_adoption()
    {
        Prove();
        Assert.Empty(Lacks());
        _bench.Restart();
        Assert.Empty(Lacks());

        Assert.False(Assert.IsType<RecheckBody>(_bench.Do(Ask(0.08, 0, 0, 0.005))).Passed);
        Assert.Equal(3, Lacks().Length);
        Prove();
        _bench.Adopt(1);
        Assert.Equal(3, Lacks().Length);
    }

    [Fact]
    public void While_a_required_proof_is_lacking_answers_stay_first()
    {
        AnswerBody Answer() =>
            Assert.IsType<AnswerBody>(_bench.Do(new LocateAsk(Bench.Controller, "pinbed-1") { DiameterMetres = 0.09, ProvingRequired = true }));
        _bench.CarryOut(Answer());
        Assert.Equal((true, "required"), (Answer().First, Answer().Proving));
        Prove();

        Assert.False(Answer().First);
        Assert.False(_bench.Locate(0.09).First);
    }

    private string[] Lacks() => [.. _bench.Situation.Find("pinbed-1")!.Unproven.Select(l => Proof.Said(l, LengthUnit.Millimetre))];

    private void Prove()
    {
        Pass(0.08, 0, 0);
        Pass(0.09, 0, 0);
        Pass(0.08, 5, 0);
        Pass(0.09, 0, 3);
    }

    private void Pass(double master, int column, int row) => Assert.True(Assert.IsType<RecheckBody>(_bench.Do(Ask(master, column, row, 0))).Passed);

    /// <summary>The bed stands at the origin of base: where v = √((R + r)² − a²) leads, and off by so much along v.</summary>
    private static RecheckAsk Ask(double master, int column, int row, double off)
    {
        double V(double diameter) => Math.Sqrt(Math.Pow((diameter / 2) + 0.006, 2) - (0.03 * 0.03));
        return new(Bench.Controller, "pinbed-1")
        {
            By = "day setter", MasterMetres = master, Column = column, Row = row,
            FoundMetres = new Vector3(0.125 * column, (0.13 * row) + V(master) - V(0.08) + off, 0),
        };
    }
}
