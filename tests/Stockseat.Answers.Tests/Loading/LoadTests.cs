using Stockseat.Answers.Done;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Tests.Support;

namespace Stockseat.Answers.Tests.Loading;

public sealed class LoadTests
{
    /// <summary>Six columns and four rows.</summary>
    private readonly Bench _bench = Bench.Serving(Revisions.Demo("pinbed-1/r0003.json"));

    [Fact]
    public void Nests_come_row_by_row_each_with_all_that_a_locate_of_it_gives()
    {
        _bench.Measure(0.0924);
        var load = Load(first: 7);
        Assert.Equal((7, 6, 4), (load.Count, load.Columns, load.Rows));

        for (var i = 0; i < 7; i++)
        {
            var answer = Next();
            Assert.Equal((load.Serial, 6 - i), (answer.Load, answer.Left));
            Assert.Equal([i % 6, i / 6], answer.Nest);
            Assert.Equal(Decided(i % 6, i / 6).Position, answer.Position);
            _bench.CarryOut(answer);
        }

        _bench.Refused(Reason.LoadEmpty, NextAsk());
    }

    [Fact]
    public void While_a_move_is_unfinished_no_other_nest_is_given()
    {
        _bench.Measure(0.0924);
        Load();
        var answer = Next();

        var refused = _bench.Refused(Reason.MoveUnfinished, NextAsk());

        Assert.Equal($"{answer.Serial}", refused.Limits!["serial"]);
        Assert.Contains("at nest 0,0 of pinbed-1", refused.Text, StringComparison.Ordinal);
        _bench.Receive(answer);
        _bench.Refused(Reason.MoveUnfinished, NextAsk());
        Assert.IsType<DoneBody>(_bench.Do(new DoneAsk(Bench.Controller, answer.Serial)));
        Assert.Equal([1, 0], Next().Nest);
    }

    [Fact]
    public void A_person_settles_a_move_whose_numbers_were_never_read_back_and_the_next_answer_stays_first()
    {
        _bench.Measure(0.0924);
        var load = Load();
        var answer = Next();

        var refused = _bench.Refused(Reason.ConfirmationMissing, new DoneAsk(Bench.Controller, answer.Serial));
        Assert.Contains("if somebody looked at nest 0,0 and it was carried out, let them say so with their name", refused.Text, StringComparison.Ordinal);
        var done = Assert.IsType<DoneBody>(_bench.Do(new DoneAsk(Bench.Controller, answer.Serial) { By = "day setter" }));

        Assert.Equal((null, load.Serial, "day setter"), (done.Confirmation, done.Load, done.By));
        var next = Next();
        Assert.Equal((1, 0, true), (next.Nest[0], next.Nest[1], next.First));
        _bench.Refused(Reason.ConfirmationMissing, new DoneAsk(Bench.Controller, answer.Serial) { By = "day setter" });
    }

    [Fact]
    public void Outside_a_load_a_person_settles_nothing_that_was_not_read_back()
    {
        _bench.Measure(0.0924);
        Load();
        var answer = _bench.Locate();

        var refused = _bench.Refused(Reason.ConfirmationMissing, new DoneAsk(Bench.Controller, answer.Serial) { By = "day setter" });

        Assert.DoesNotContain("somebody looked", refused.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_dropped_move_leaves_its_nest_as_it_was_and_may_be_said_again()
    {
        _bench.Measure(0.0924);
        var load = Load();
        var answer = Next();

        var dropped = Drop(answer.Serial);
        var again = Drop(answer.Serial);

        Assert.Equal((answer.Serial, load.Serial, null), (dropped.Answer, dropped.Load, dropped.Again));
        Assert.True(again.Again);
        Assert.Equal(answer.Nest, Next().Nest);
    }

    [Fact]
    public void Only_the_unfinished_move_of_the_load_that_stands_can_be_dropped()
    {
        _bench.Measure(0.0924);
        Load();
        var done = Next();
        _bench.CarryOut(done);
        var plain = _bench.Locate(column: 3);
        var ended = Next();
        Load();

        Assert.All([done, plain, ended], a => _bench.Refused(Reason.AnswerSuperseded, new DroppedAsk(Bench.Controller, a.Serial)));
    }

    [Fact]
    public void Places_fill_empty_nests_and_never_one_with_stock()
    {
        _bench.Measure(0.0924);
        Load(first: 2);
        var pick = Next();
        _bench.CarryOut(pick);

        var place = Assert.IsType<AnswerBody>(_bench.Do(NextAsk(Purpose.Place) with { DiameterMetres = 0.09 }));

        Assert.Equal([0, 0], place.Nest);
        Assert.Equal(22, place.Left);
        _bench.CarryOut(place);
        Assert.Equal([1, 0], Next().Nest); // The placed piece is not raw stock.
    }

    [Fact]
    public void An_empty_rack_is_filled_nest_by_nest()
    {
        Assert.Equal(0, Load(first: 0).Count);
        for (var i = 0; i < 3; i++)
        {
            var place = Assert.IsType<AnswerBody>(_bench.Do(NextAsk(Purpose.Place) with { DiameterMetres = 0.09 }));
            Assert.Equal([i, 0], place.Nest);
            _bench.CarryOut(place);
        }

        _bench.Measure(0.0924);
        _bench.Refused(Reason.LoadEmpty, NextAsk());
    }

    [Fact]
    public void Without_a_load_nothing_is_next()
    {
        _bench.Measure(0.0924);
        _bench.Refused(Reason.LoadMissing, NextAsk());
        Load();
        _bench.Do(new EmptiedAsk(Bench.Controller, "pinbed-1"));
        _bench.Refused(Reason.LoadMissing, NextAsk());
    }

    [Fact]
    public void A_new_load_replaces_the_old_one_and_tells_what_was_open()
    {
        _bench.Measure(0.0924);
        var first = Load(first: 3);
        var open = Next();

        var second = Load(nests: [[2, 1], [0, 0]]);

        Assert.Equal((first.Serial, 3, open.Serial), (second.Replaces, second.ReplacedLeft, second.Unfinished));
        Assert.Equal([0, 0], Next().Nest);
    }

    [Fact]
    public void A_nest_of_another_lot_has_a_measurement_of_its_own()
    {
        _bench.Do(Bench.Push([0.0924], lot: "A"));
        Load(lot: "A");
        Assert.IsType<MeasurementBody>(_bench.Do(Bench.Push([0.0905], lot: "B") with { Nest = [1, 0] }));

        var first = Next();
        _bench.CarryOut(first);
        var second = Next();

        Assert.Equal((0.0924, "A"), (first.Diameter, first.Lot));
        Assert.Equal((0.0905, "B"), (second.Diameter, second.Lot));
        Assert.Equal(0.0924, second.Beside);
    }

    [Fact]
    public void A_refused_measurement_of_a_nest_voids_only_that_nest()
    {
        _bench.Measure(0.0924);
        Load(first: 2);
        _bench.Refused(Reason.ReadingsDisagree, Bench.Push([0.0924, 0.0950]) with { Nest = [0, 0] });

        var refused = _bench.Refused(Reason.MeasurementMissing, NextAsk());

        Assert.StartsWith("nest 0,0 of pinbed-1 has no measurement that can be used", refused.Text, StringComparison.Ordinal);
        _bench.Locate();
        _bench.Do(Bench.Push([0.0925]) with { Nest = [0, 0] });
        Assert.Equal(0.0925, Next().Diameter);
    }

    [Fact]
    public void A_nest_is_measured_only_in_a_load_that_has_stock_there()
    {
        _bench.Refused(Reason.LoadMissing, Bench.Push([0.0924]) with { Nest = [0, 0] });
        Load(first: 2);
        _bench.Refused(Reason.LoadEmpty, Bench.Push([0.0924]) with { Nest = [2, 0] });
        _bench.Refused(Reason.NestUnknown, Bench.Push([0.0924]) with { Nest = [9, 9] });
    }

    [Fact]
    public void The_lot_of_the_load_and_of_the_measurement_must_agree()
    {
        _bench.Do(Bench.Push([0.0924], lot: "A"));
        Load(lot: "B");

        _bench.Refused(Reason.MeasurementOutsideLot, NextAsk());
    }

    [Fact]
    public void A_trial_goes_through_a_whole_load_and_changes_nothing()
    {
        _bench.Measure(0.0924);
        Load(first: 3);
        int[]? after = null;
        for (var i = 0; i < 3; i++)
        {
            var trial = Assert.IsType<TrialBody>(_bench.Do(NextAsk() with { IsTrial = true, After = after }));
            Assert.Equal([i, 0], trial.Nest);
            after = trial.Nest;
        }

        _bench.Refused(Reason.LoadEmpty, NextAsk() with { IsTrial = true, After = after });
        Assert.Equal([0, 0], Next().Nest);
    }

    [Theory]
    [InlineData(-1, null)]
    [InlineData(25, null)]
    [InlineData(2, "0,0")]
    [InlineData(null, "6,0")]
    [InlineData(null, "0,0 0,0")]
    public void Nests_that_the_layout_does_not_have_are_refused(int? first, string? nests)
    {
        var ask = new LoadedAsk(Bench.Controller, "pinbed-1")
        {
            First = first, Nests = nests is null ? null : [.. nests.Split(' ').Select(n => n.Split(',').Select(int.Parse).ToArray())],
        };

        Assert.IsType<RefusalBody>(_bench.Do(ask));
    }

    [Fact]
    public void It_may_be_stated_while_the_fixture_is_held()
    {
        _bench.Do(new Answers.Hold.HoldAsk(Bench.Controller, "pinbed-1") { By = "a", Why = "refilling" });

        Assert.Equal(24, Load().Count);
    }

    [Fact]
    public void All_nests_at_once_are_those_of_single_answers()
    {
        _bench.Measure(0.0924);

        var grid = Assert.IsType<GridBody>(_bench.Do(new LocateAsk(Bench.Controller, "pinbed-1") { IsGrid = true }));

        Assert.Equal(24, grid.Count);
        var revision = _bench.Situation.Find("pinbed-1")!.InForce!;
        Assert.All(GridPositions.Of(revision, grid), n => Assert.Equal(Decided(n.Column, n.Row).Position, n.Position));
        _bench.Refused(Reason.SerialUnknown, new DoneAsk(Bench.Controller, grid.Serial));
    }

    internal static LocateAsk NextAsk(Purpose purpose = Purpose.Pick) => new(Bench.Controller, "pinbed-1") { IsNext = true, Purpose = purpose };

    private AnswerBody Next() => Assert.IsType<AnswerBody>(_bench.Do(NextAsk()));

    private DroppedBody Drop(long serial) => Assert.IsType<DroppedBody>(_bench.Do(new DroppedAsk(Bench.Controller, serial)));

    private LoadedBody Load(int? first = null, IReadOnlyList<int[]>? nests = null, string? lot = null) => Assert.IsType<LoadedBody>(
        _bench.Do(new LoadedAsk(Bench.Controller, "pinbed-1") { First = first, Nests = nests, Lot = lot, LotTerms = lot is null ? null : new() }));

    private AnswerBody Decided(int column, int row) => (AnswerBody)Answers.Verbs.Decision.Decide(
        new LocateAsk(Bench.Controller, "pinbed-1") { Column = column, Row = row }, _bench.Situation, _bench.Now, _ => null);
}
