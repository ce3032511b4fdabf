using Stockseat.Answers.Adopt;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Tests.Support;

namespace Stockseat.Answers.Tests.Mistakes;

/// <summary>Plausible mistakes of a cell's program and of whoever measures.</summary>
public sealed class CellMistakeTests
{
    private static readonly LotTerms Lot = new() { Nominal = 0.0925, Plus = 0, Minus = 0.00022 };

    private readonly Bench _bench = new(
        Revisions.Folder(Revisions.Demo("pinbed-1/r0003.json")), Revisions.Folder(Revisions.Demo("veerack-2/r0002.json")));

    public CellMistakeTests() => _bench.OfFolders();

    /// <summary>Where every ask names its lot, neither fixture is picked by that diameter.</summary>
    [Fact]
    public void A_push_for_the_wrong_fixture()
    {
        Assert.IsType<MeasurementBody>(_bench.Do(Bench.Push([0.0924], "A1077", terms: Lot) with { Fixture = "veerack-2" }));

        _bench.Refused(Reason.MeasurementMissing, fixture: "pinbed-1", lot: "A1077");
        _bench.Refused(Reason.MeasurementOutsideLot, fixture: "veerack-2", lot: "B2");
    }

    [Fact]
    public void Digits_transposed_in_a_push_with_a_lot() => Assert.Equal(
        Reason.MeasurementOutsideLot, Assert.IsType<RefusalBody>(_bench.Do(Bench.Push([0.0942], "A1077", terms: Lot))).Refusal.Reason);

    /// <summary>A program that reads back where it goes, x y z, is refused; one that reads back the shift is not.</summary>
    [Fact]
    public void The_shift_added_to_an_origin_that_was_already_shifted()
    {
        var answer = _bench.Locate(0.0924);
        var twice = new[] { "x", "y", "z" }.Select((n, i) => (n, FixedPoint.Text(answer.Position[i] + answer.ShiftBase[i], answer.Decimals))).ToArray();

        Assert.Equal(Reason.ReadbackDiffers, Assert.IsType<RefusalBody>(_bench.Confirm(answer.Serial, twice)).Refusal.Reason);
        Assert.Equal("full", Numbers(answer));
    }

    [Fact]
    public void A_lot_described_again_by_mistake()
    {
        DescribeLotAsk Describe(double nominal) => new(Bench.Controller, "C31")
        {
            Terms = new() { Nominal = nominal, Plus = 0, Minus = 0.0004 }, Configured = false,
        };
        var (push, ask) = (Bench.Push([0.0924], "C31") with { LotTerms = null }, new LocateAsk(Bench.Controller, "pinbed-1") { Lot = "C31" });
        _bench.Do(Describe(0.0925));
        _bench.Do(push);
        Assert.IsType<AnswerBody>(_bench.Do(ask));
        _bench.Do(Describe(0.0635));

        _bench.Refused(Reason.MeasurementOutsideLot, ask);
        _bench.Refused(Reason.MeasurementOutsideLot, push);
    }

    /// <summary>The second one has looked at another revision than the one in force.</summary>
    [Fact]
    public void Two_people_adopt_one_after_the_other()
    {
        var folder = Revisions.Folder(Revisions.Good(1), Revisions.Good(2), Revisions.Good(3));
        var bench = new Bench(folder);
        bench.OfFolders();
        AdoptAsk Adopt(int number, int expects) =>
            new(Bench.Controller, "pinbed-1", number) { By = "day setter", Why = "bed moved", Folder = folder, Expects = expects };

        Assert.IsType<RevisionAdoptedBody>(bench.Do(Adopt(3, expects: 3)));
        bench.Refused(Reason.RevisionChangedMeanwhile, Adopt(3, expects: 2));
    }

    private string? Numbers(AnswerBody answer) => Assert.IsType<ConfirmationBody>(_bench.Receive(answer)).Numbers;
}
