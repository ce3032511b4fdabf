using Stockseat.Answers.Adopt;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Done;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Tests.Support;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Tests.Locate;

public sealed class FirstMarkTests
{
    private const string Grid = """[ { "direction": "u", "count": 3, "pitch": "200 mm" } ]""";

    private readonly Bench _bench = Bench.Serving(Revisions.Good(layout: Grid, limits: """{ "recheck": "1 mm", "diameter": [ "60 mm", "100 mm" ] }"""));

    [Fact]
    public void An_answer_is_first_until_it_was_carried_out()
    {
        var answer = _bench.Locate(0.09);
        Assert.True(answer.First);

        Assert.IsType<ConfirmationBody>(_bench.Confirm(answer.Serial));
        Assert.True(_bench.Locate(0.09).First);
        answer = _bench.Locate(0.09);
        Assert.IsType<ConfirmationBody>(_bench.Receive(answer));
        Assert.True(_bench.Locate(0.09).First);
        Assert.IsType<DoneBody>(_bench.Do(new DoneAsk(Bench.Controller, answer.Serial)));

        Assert.False(_bench.Locate(0.09).First);
    }

    [Fact]
    public void Another_nest_and_another_purpose_are_first_by_themselves()
    {
        _bench.CarryOut(_bench.Locate(0.09));

        Assert.True(_bench.Locate(0.09, column: 2).First);
        Assert.True(_bench.Locate(0.09, purpose: Purpose.Place).First);
        _bench.CarryOut(_bench.Locate(0.09, column: 2));
        Assert.False(_bench.Locate(0.09, column: 2).First);
        Assert.False(_bench.Locate(0.09).First);
    }

    [Fact]
    public void A_shift_that_differs_from_the_last_one_carried_out_is_first()
    {
        _bench.CarryOut(_bench.Locate(0.09));
        Assert.True(_bench.Locate(0.0901).First);

        _bench.CarryOut(_bench.Locate(0.0901));

        Assert.False(_bench.Locate(0.0901).First);
        Assert.True(_bench.Locate(0.09).First);
    }

    [Fact]
    public void A_move_that_is_reported_again_is_not_the_last_one()
    {
        var earlier = _bench.Locate(0.09);
        _bench.CarryOut(earlier);
        _bench.CarryOut(_bench.Locate(0.08, column: 1));
        Assert.IsType<DoneBody>(_bench.Do(new DoneAsk(Bench.Controller, earlier.Serial)));

        Assert.True(_bench.Locate(0.09).First);
        Assert.False(_bench.Locate(0.08, column: 1).First);
    }

    [Fact]
    public void A_recheck_that_misses_makes_all_of_it_first_again()
    {
        var before = _bench.Locate(0.09);
        _bench.CarryOut(before);
        Assert.IsType<RecheckBody>(_bench.Do(Recheck(0.02)));

        Assert.True(_bench.Locate(0.09).First);
        Assert.Equal("confirmation-missing", Assert.IsType<RefusalBody>(_bench.Do(new DoneAsk(Bench.Controller, before.Serial))).Reason);
        _bench.CarryOut(_bench.Locate(0.09));
        Assert.False(_bench.Locate(0.09).First);
    }

    [Fact]
    public void A_recheck_that_passes_changes_nothing()
    {
        _bench.CarryOut(_bench.Locate(0.09));
        Assert.True(Assert.IsType<RecheckBody>(_bench.Do(Recheck(0))).Passed);

        Assert.False(_bench.Locate(0.09).First);
    }

    [Fact]
    public void A_new_adoption_makes_the_next_answer_first()
    {
        var bench = Bench.Serving(Revisions.Good(1));
        bench.CarryOut(bench.Locate(0.09));
        bench.ReadFolders(Revisions.Folder(Revisions.Good(1), Revisions.Good(2)));
        Assert.False(bench.Locate(0.09).First);
        Assert.IsType<RevisionAdoptedBody>(bench.Adopt(2));

        Assert.True(bench.Locate(0.09).First);
    }

    [Fact]
    public void Restarts_keep_it()
    {
        var answer = _bench.Locate(0.09);
        _bench.Receive(answer);
        _bench.Restart();
        Assert.True(_bench.Locate(0.09).First);
        _bench.Do(new DoneAsk(Bench.Controller, answer.Serial));
        _bench.Restart();

        Assert.False(_bench.Locate(0.09).First);
        Assert.True(_bench.Locate(0.09, column: 1).First);
    }

    [Fact]
    public void What_was_confirmed_by_version_1_counts_as_carried_out_in_every_nest()
    {
        _bench.Rules = 1;
        _bench.Confirm(_bench.Locate(0.09).Serial);
        _bench.Rules = EntryBody.CurrentVersion;

        Assert.False(_bench.Locate(0.09).First);
        Assert.False(_bench.Locate(0.09, column: 2).First);
        Assert.True(_bench.Locate(0.0905).First);
        Assert.True(_bench.Locate(0.09, purpose: Purpose.Place).First);
    }

    private static RecheckAsk Recheck(double off) => new(Bench.Controller, "pinbed-1")
    {
        By = "day setter", MasterMetres = 0.08, FoundMetres = new Vector3(0, off, 0),
    };
}
