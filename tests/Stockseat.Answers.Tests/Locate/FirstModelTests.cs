using CsCheck;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Done;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Still;
using Stockseat.Answers.Tests.Advising;
using Stockseat.Answers.Tests.Support;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;

namespace Stockseat.Answers.Tests.Locate;

/// <summary>
/// Random asks, confirmations, moves, holds, rechecks, adoptions and restarts, also from a snapshot, against a small model: only what was read back
/// completely and carried out lifts first.
/// </summary>
public sealed class FirstModelTests
{
    private const string Fixture = "pinbed-1";

    /// <summary>Two of them shift the stock by nearly the same: 0.5 mm of diameter is less than 1 mm of shift, and 4 mm are more.</summary>
    private static readonly double[] Diameters = [0.06, 0.0605, 0.065];

    private static readonly Gen<(int What, int Which, int How)[]> Steps = Gen.Select(Gen.Int[0, 15], Gen.Int[0, 999], Gen.Int[0, 999]).Array[10, 80];

    [Theory]
    [InlineData("", 0)]
    [InlineData(", \"firstAbove\": \"1 mm\"", 0.002)]
    public void First_goes_only_when_a_move_was_carried_out_at_numbers_that_were_read_back(string firstAbove, double near)
    {
        var file = Racks.With(("\"gap\": \"0.5 mm\"", "\"gap\": \"0.5 mm\", \"recheck\": \"1 mm\"" + firstAbove));
        var (lifted, answered) = (0, 0);
        Steps.Sample(
            steps =>
            {
                var run = new Run(file, near);
                Array.ForEach(steps, run.Step);
                Interlocked.Add(ref lifted, run.Lifted);
                Interlocked.Add(ref answered, run.Answered);
            },
            iter: 400);

        Assert.True(lifted > 50 && answered > 2 * lifted, $"{lifted} of {answered} answers were not first");
    }

    private sealed class Run(RevisionFile file, double near)
    {
        private readonly Bench _bench = Bench.Serving(file);
        private readonly FirstModel _model = new(near);
        private readonly List<ServedBody> _served = [];
        private bool _held;

        public int Answered { get; private set; }

        public int Lifted { get; private set; }

        public void Step((int What, int Which, int How) step)
        {
            var some = _served.Count == 0 ? null : _served[^(1 + (step.Which % Math.Min(3, _served.Count)))];
            switch (step.What)
            {
                case < 5:
                    Locate(step.Which, step.How);
                    break;
                case < 8 when some is not null:
                    Confirm(some, step.How);
                    break;
                case < 11 when some is not null:
                    CarryOut(some);
                    break;
                case 11:
                    Rare(step.Which, step.How);
                    break;
                case 12:
                    _bench.Restart(ofCarried: step.How % 2 == 0);
                    break;
                case 13 when some is not null:
                    _bench.Do(new StillAsk(Bench.Controller, some.Serial));
                    break;
                case 14:
                    _bench.Measure(0.065);
                    break;
                default:
                    _bench.Do(new EmptiedAsk(Bench.Controller, Fixture));
                    break;
            }
        }

        private void Locate(int which, int how)
        {
            var asked = new FirstModel.Asked(which % 4 == 0 ? Purpose.Place : Purpose.Pick, which / 4 % 3 == 0 ? 1 : 0, Diameters[Math.Max(0, (how % 5) - 2)]);
            var body = _bench.Do(new LocateAsk(Bench.Controller, Fixture)
            {
                Purpose = asked.Purpose, Column = asked.Column, DiameterMetres = asked.DiameterMetres, IsTrial = how % 10 == 9,
            });
            switch (body)
            {
                case AnswerBody answer:
                    Assert.False(_held);
                    Assert.Equal(_model.IsFirst(asked), answer.First);
                    _model.Answered(answer.Serial, asked);
                    _served.Add(answer);
                    (Answered, Lifted) = (Answered + 1, Lifted + (answer.First ? 0 : 1));
                    break;
                case TrialBody trial:
                    _served.Add(trial);
                    break;
                default:
                    Assert.True(_held);
                    break;
            }
        }

        private void Confirm(ServedBody served, int how)
        {
            string[] triple = (how / 10 % 3) switch { 0 => ["bx", "by", "bz"], 1 => ["ox", "oy", "oz"], _ => ["x", "y", "z"] };
            var read = triple.Select(n => (n, Served(served, n))).ToArray();
            var body = (how % 10) switch
            {
                0 => _bench.Confirm(served.Serial),
                1 => _bench.Confirm(served.Serial, read[..1]),
                2 => _bench.Confirm(served.Serial, [.. read[..2], (triple[2], "0.123456")]),
                _ => _bench.Confirm(served.Serial, read),
            };
            if (how % 10 > 2 && served is AnswerBody)
            {
                Assert.Equal(ConfirmationBody.Full, Assert.IsType<ConfirmationBody>(body).Numbers);
                _model.ReadBack(served.Serial);
            }
        }

        private void CarryOut(ServedBody served)
        {
            var body = _bench.Do(new DoneAsk(Bench.Controller, served.Serial));
            Assert.Equal(_model.CarriedOut(served.Serial), body is DoneBody);
        }

        private void Rare(int which, int how)
        {
            switch (which % 4)
            {
                case 0:
                    Assert.IsType<RevisionAdoptedBody>(_bench.Adopt(1));
                    _model.BeginAnew();
                    break;
                case 1 when !_held:
                    _held = true;
                    _bench.Do(new HoldAsk(Bench.Controller, Fixture) { By = "day setter", Why = "pins" });
                    break;
                case 1 or 2:
                    _held = false;
                    _bench.Do(new ReleaseAsk(Bench.Controller, Fixture) { By = "day setter", Why = "done", Of = "day setter" });
                    break;
                default:
                    Recheck(misses: how % 2 == 0);
                    break;
            }
        }

        /// <summary>Of the taught diameter, so it belongs where nest 0,0 was taught.</summary>
        private void Recheck(bool misses)
        {
            var body = Assert.IsType<RecheckBody>(_bench.Do(new RecheckAsk(Bench.Controller, Fixture)
            {
                By = "day setter", MasterMetres = 0.0635, FoundMetres = new Vector3(0.5 + (misses ? 0.002 : 0), -0.3, 0.25),
            }));
            Assert.Equal(misses, !body.Passed);
            if (misses)
            {
                _model.BeginAnew();
            }
        }

        private static string Served(ServedBody served, string name) =>
            FixedPoint.Text(served.TryNumber(name, out var value) ? value : 0, served.Decimals, served.Exponent(name));
    }
}
