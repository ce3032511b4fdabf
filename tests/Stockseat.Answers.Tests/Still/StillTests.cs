using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Still;
using Stockseat.Answers.Tests.Support;

namespace Stockseat.Answers.Tests.Still;

public sealed class StillTests
{
    private readonly Bench _bench = Bench.Serving(Revisions.Demo("pinbed-1/r0003.json"));

    [Fact]
    public void While_it_may_be_used_the_outcome_is_the_answer_and_nothing_is_written()
    {
        _bench.Measure(0.0924);
        var answer = _bench.Locate();
        var entries = _bench.Entries.Count;

        Assert.Same(answer, _bench.Do(new StillAsk(Bench.Controller, answer.Serial)));
        Assert.Equal(entries, _bench.Entries.Count);
    }

    [Fact]
    public void Another_measurement_supersedes_it() => Superseded("measurement", b => b.Measure(0.0925));

    [Fact]
    public void Emptied_nests_supersede_it() => Superseded("measurement", b => b.Do(new EmptiedAsk(Bench.Controller, "pinbed-1")));

    [Fact]
    public void A_later_answer_of_the_purpose_supersedes_it() => Superseded("answer", b => b.Locate());

    [Fact]
    public void A_hold_supersedes_it() => Superseded("fixture-held", b => b.Do(new HoldAsk(Bench.Controller, "pinbed-1") { By = "day setter", Why = "pins" }));

    [Fact]
    public void An_adoption_supersedes_it() => Superseded("adoption", b => b.Adopt(3));

    [Fact]
    public void Age_supersedes_it() => Superseded("age", b => b.Now += TimeSpan.FromHours(8.1));

    [Fact]
    public void A_place_does_not_supersede_a_pick()
    {
        _bench.Measure(0.0924);
        var answer = _bench.Locate();
        _bench.Locate(0.09, purpose: Purpose.Place);

        Assert.Same(answer, _bench.Do(new StillAsk(Bench.Controller, answer.Serial)));
    }

    [Fact]
    public void A_stated_diameter_lasts_until_the_nests_are_emptied()
    {
        var answer = _bench.Locate(0.0924);
        Assert.Same(answer, _bench.Do(new StillAsk(Bench.Controller, answer.Serial)));
        _bench.Do(new EmptiedAsk(Bench.Controller, "pinbed-1"));

        Assert.Equal("emptied", _bench.Refused(Reason.AnswerSuperseded, new StillAsk(Bench.Controller, answer.Serial)).Limits!["by"]);
    }

    [Fact]
    public void A_stated_diameter_lasts_until_something_is_measured()
    {
        var pick = _bench.Locate(0.0924);
        var place = _bench.Locate(0.09, purpose: Purpose.Place);
        _bench.Measure(0.0924);

        Assert.Equal("measurement", _bench.Refused(Reason.AnswerSuperseded, new StillAsk(Bench.Controller, pick.Serial)).Limits!["by"]);
        Assert.Same(place, _bench.Do(new StillAsk(Bench.Controller, place.Serial))); // The raw stock that was measured is not what is placed.
    }

    private void Superseded(string by, Action<Bench> what)
    {
        _bench.Measure(0.0924);
        var answer = _bench.Locate();
        what(_bench);

        var refused = _bench.Refused(Reason.AnswerSuperseded, new StillAsk(Bench.Controller, answer.Serial));
        Assert.Equal((by, answer.Serial), (refused.Limits!["by"], refused.Answer));
        Assert.Contains($"answer {answer.Serial} may no longer be used", refused.Text, StringComparison.Ordinal);
    }
}
