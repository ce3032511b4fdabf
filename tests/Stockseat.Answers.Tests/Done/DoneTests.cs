using Stockseat.Answers.Asking;
using Stockseat.Answers.Done;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Tests.Support;

namespace Stockseat.Answers.Tests.Done;

public sealed class DoneTests
{
    private readonly Bench _bench = Bench.Serving(Revisions.Demo("pinbed-1/r0003.json"));

    [Fact]
    public void It_names_answer_confirmation_nest_and_shift()
    {
        var answer = _bench.Locate(0.0924, column: 2, row: 1);
        var confirmation = _bench.Receive(answer);

        var done = Assert.IsType<DoneBody>(_bench.Do(new DoneAsk(Bench.Controller, answer.Serial) { By = "day setter" }));

        Assert.Equal((answer.Serial, confirmation.Serial, "pick", "day setter"), (done.Answer, done.Confirmation, done.Purpose, done.By));
        Assert.Equal([2, 1], done.Nest);
        Assert.Equal(answer.ShiftBase, done.ShiftBase);
    }

    [Fact]
    public void Without_a_full_confirmation_of_the_same_answer_it_is_refused()
    {
        var (answer, other) = (_bench.Locate(0.0924), _bench.Locate(0.0924));
        Refused(answer.Serial);
        _bench.Confirm(answer.Serial);
        Refused(answer.Serial);
        _bench.Receive(other);
        Refused(answer.Serial);
    }

    [Fact]
    public void Several_answers_may_be_received_before_the_first_is_carried_out()
    {
        var answers = Enumerable.Range(0, 5).Select(c => _bench.Locate(0.0924, column: c)).ToList();
        answers.ForEach(a => _bench.Receive(a));

        Assert.All(answers, a => Assert.IsType<DoneBody>(_bench.Do(new DoneAsk(Bench.Controller, a.Serial))));
    }

    [Fact]
    public void Said_again_after_a_lost_reply_it_is_taken()
    {
        var answer = _bench.Locate(0.0924);
        _bench.CarryOut(answer);

        Assert.IsType<DoneBody>(_bench.Do(new DoneAsk(Bench.Controller, answer.Serial)));
    }

    [Fact]
    public void An_answer_from_before_an_adoption_is_refused()
    {
        var bench = Bench.Serving(Revisions.Good(1));
        var answer = bench.Locate(0.09);
        bench.Receive(answer);
        bench.Adopt(1);

        var refused = Assert.IsType<RefusalBody>(bench.Do(new DoneAsk(Bench.Controller, answer.Serial)));
        Assert.Equal("confirmation-missing", refused.Reason);
        Assert.Contains("nothing from before it counts", refused.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_trial_can_neither_be_confirmed_nor_done()
    {
        var trial = Assert.IsType<TrialBody>(_bench.Do(new LocateAsk(Bench.Controller, "pinbed-1") { DiameterMetres = 0.0924, IsTrial = true }));

        Assert.True(trial.First);
        Assert.Contains("is a trial", _bench.Refused(Reason.SerialUnknown, new DoneAsk(Bench.Controller, trial.Serial)).Text, StringComparison.Ordinal);
        Assert.Contains("is a trial", Assert.IsType<RefusalBody>(_bench.Confirm(trial.Serial)).Text, StringComparison.Ordinal);
        Assert.Equal(0, _bench.Situation.Find("pinbed-1")!.Served.Pick);
    }

    [Fact]
    public void Only_who_was_served_says_so()
    {
        var answer = _bench.Locate(0.0924);
        _bench.Receive(answer);

        _bench.Refused(Reason.NotPermitted, new DoneAsk(new Caller("gantry", "other", null), answer.Serial) { OwnAnswersOnly = true });
    }

    private void Refused(long serial) => Assert.Equal(serial, _bench.Refused(Reason.ConfirmationMissing, new DoneAsk(Bench.Controller, serial)).Answer);
}
