using CsCheck;
using Stockseat.Answers.Done;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Tests.Support;

namespace Stockseat.Answers.Tests.Loading;

/// <summary>A load against a tiny model of it, whatever is said in whatever order, across restarts from the whole ledger and from what is carried.</summary>
public sealed class LoadModelTests
{
    private const int Columns = 6, Nests = 24;

    [Fact]
    public void Nobody_is_sent_to_a_nest_twice_or_to_an_empty_one()
    {
        var (given, refused) = (0, 0);
        Gen.Select(Gen.Int[0, 11], Gen.Int[0, Nests - 1]).Array[20, 60].Sample(
            steps =>
            {
                var bench = Bench.Serving(Revisions.Demo("pinbed-1/r0003.json"));
                bench.Measure(0.0924);
                var model = new Model();
                foreach (var (what, much) in steps)
                {
                    var answered = Step(bench, model, what, much);
                    _ = answered ? Interlocked.Increment(ref given) : Interlocked.Increment(ref refused);
                    Assert.Equal(model.Raw, bench.Situation.Find("pinbed-1")!.Load?.Raw.Select(n => (n.Row * Columns) + n.Column));
                    Assert.Equal(model.Open, bench.Situation.Find("pinbed-1")!.Load?.Open?.Answer);
                }
            },
            iter: 60, threads: 1);
        Assert.True(given > 100 && refused > 100, $"{given} given, {refused} refused");
    }

    private static bool Step(Bench bench, Model model, int what, int much)
    {
        switch (what)
        {
            case 0:
                bench.Do(new LoadedAsk(Bench.Controller, "pinbed-1") { First = much + 1 });
                (model.Raw, model.Placed, model.Open) = ([.. Enumerable.Range(0, much + 1)], [], null);
                return true;
            case 1 when much < 6:
                bench.Do(new EmptiedAsk(Bench.Controller, "pinbed-1"));
                bench.Measure(0.0924);
                (model.Raw, model.Placed, model.Open) = (null, [], null);
                return true;
            case 2:
                bench.Restart(ofCarried: much % 2 == 0);
                return true;
            case 3 or 4 when model.Open is { } open:
                Assert.IsType<DroppedBody>(bench.Do(new DroppedAsk(Bench.Controller, open)));
                model.Open = null;
                return true;
            case >= 5 and <= 7 when model.Open is { } open:
                var answer = (AnswerBody)bench.Entries.Single(e => e.Serial == open);
                bench.Receive(answer);
                Assert.IsType<DoneBody>(bench.Do(new DoneAsk(Bench.Controller, open)));
                model.Done(answer.Purpose == "pick");
                return true;
            case 8:
                return Next(bench, model, Purpose.Place);
            default:
                return Next(bench, model, Purpose.Pick);
        }
    }

    private static bool Next(Bench bench, Model model, Purpose purpose)
    {
        var body = bench.Do(LoadTests.NextAsk(purpose) with { DiameterMetres = purpose == Purpose.Place ? 0.09 : null });
        var expected = model.Raw is null ? Reason.LoadMissing
            : model.Open is not null ? Reason.MoveUnfinished
            : model.Next(purpose) is null ? Reason.LoadEmpty
            : Reason.None;
        if (expected != Reason.None)
        {
            Assert.Equal(expected, Assert.IsType<RefusalBody>(body).Refusal.Reason);
            return false;
        }

        var answer = Assert.IsType<AnswerBody>(body);
        Assert.Equal(model.Next(purpose), (answer.Nest[1] * Columns) + answer.Nest[0]);
        (model.Open, model.At) = (answer.Serial, model.Next(purpose)!.Value);
        return true;
    }

    /// <summary>The nests by their numbers, row by row.</summary>
    private sealed class Model
    {
        public SortedSet<int>? Raw { get; set; }

        public SortedSet<int> Placed { get; set; } = [];

        public long? Open { get; set; }

        public int At { get; set; }

        public int? Next(Purpose purpose) => purpose == Purpose.Pick
            ? Raw!.Count > 0 ? Raw.Min : null
            : Enumerable.Range(0, Nests).Where(n => !Raw!.Contains(n) && !Placed.Contains(n)).Select(n => (int?)n).FirstOrDefault();

        public void Done(bool isPick)
        {
            _ = isPick ? Raw!.Remove(At) : Placed.Add(At);
            Open = null;
        }
    }
}
