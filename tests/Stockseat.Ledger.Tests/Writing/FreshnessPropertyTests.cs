using CsCheck;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Tests.Support.Clocks;

namespace Stockseat.Ledger.Tests.Writing;

/// <summary>
/// Whatever happens to the clock, no answer uses a measurement older than allowed, judged by the counter that nobody can set.
/// </summary>
public sealed class FreshnessPropertyTests
{
    private const double FreshSeconds = 60;

    [Fact]
    public async Task No_answer_uses_a_measurement_that_is_truly_too_old()
    {
        var (answers, stale, steps) = (0, 0, 0);
        await Gen.Select(Gen.Int[0, 13], Gen.Double[0, 1]).Array[20, 60].SampleAsync(
            async happenings =>
            {
                using var shop = new Shop();
                await shop.Ledger.Begin();
                foreach (var (what, much) in happenings)
                {
                    await shop.Happens(what, much);
                }

                Assert.True(shop.Ledger.Verify().Whole);
                Interlocked.Add(ref answers, shop.Answers);
                Interlocked.Add(ref stale, shop.Stale);
                Interlocked.Add(ref steps, shop.Ledger.Rows().Count(r => r.Kind == Kinds.ClockStep));
            },
            iter: 40);

        // All of it has to have happened; otherwise the test shows nothing.
        Assert.True(answers > 50 && stale > 50 && steps > 50, $"{answers} answers, {stale} refused as stale, {steps} steps");
    }

    private sealed class Shop : IDisposable
    {
        private readonly SteppedTime _time = new();
        private readonly Dictionary<long, (TimeSpan At, int Run)> _measured = [];
        private TimeSpan _true;
        private DateTimeOffset _pushed = Support.Ledger.Start;
        private int _run;

        public Shop() => Ledger = new(_time);

        public Support.Ledger Ledger { get; }

        public int Answers { get; private set; }

        public int Stale { get; private set; }

        public async Task Happens(int what, double much)
        {
            switch (what)
            {
                case 0 or 1: Pass(50 * much); break;
                case 2: Pass(much); break;
                case 3: _time.Set(TimeSpan.FromSeconds(-70 * much)); break;
                case 4: _time.Set(TimeSpan.FromSeconds(70 * much)); break;
                case 5 or 6 or 7: _time.Set(TimeSpan.FromSeconds(2 * much - 1.5)); break; // usually too small for a step
                case 8 or 9: await Push(); break;
                case 10: await Restart(much); break;
                case 11: await AskAtTheEdge(); break;
                default: await Ask(); break;
            }
        }

        public void Dispose() => Ledger.Dispose();

        private void Pass(double seconds)
        {
            _time.Advance(TimeSpan.FromSeconds(seconds));
            _true += TimeSpan.FromSeconds(seconds);
        }

        private async Task Push()
        {
            var body = await Ledger.Do(new MeasureAsk(new("gauge", null, null), "bed") { ReadingsMetres = [0.09],
                Terms = new(null, null, TimeSpan.FromSeconds(FreshSeconds)) });
            _measured[body.Serial] = (_true, _run);
            _pushed = _time.GetUtcNow();
        }

        /// <summary>The clock is set while nobody looks: forward, or to before the last entry. Setting it back to a time after that can't be noticed.</summary>
        private async Task Restart(double much)
        {
            await Ledger.End();
            _time.Set(TimeSpan.FromSeconds(much < 0.3 ? 0 : much < 0.6 ? 90 * much : -1.001 - 90 * (much - 0.6)));
            await Ledger.Begin();
            _run++;
        }

        /// <summary>At the last instant that is fresh by the clock: any true time that was lost shows there.</summary>
        private async Task AskAtTheEdge()
        {
            Pass(Math.Max(0, FreshSeconds - 1e-5 - (_time.GetUtcNow() - _pushed).TotalSeconds));
            await Ask();
        }

        private async Task Ask()
        {
            switch (await Ledger.Do(Support.Ledger.Locate(null)))
            {
                case AnswerBody { Measurement: { } serial, Age: { } age }:
                    Answers++;
                    var (at, run) = _measured[serial];
                    var truly = (_true - at).TotalSeconds;
                    // The tolerance begins again with each start, and that much drift may lie in the time between.
                    var slack = StepClock.Slack.TotalSeconds * (_run - run + 1) + truly / StepClock.Drift + 1e-6;
                    Assert.True(age >= 0 && age <= FreshSeconds, $"age {age} s");
                    Assert.True(truly <= FreshSeconds + slack, $"measurement {serial} is really {truly} s old; by the clock it is {age} s");
                    break;
                case RefusalBody { Reason: "measurement-stale" }: Stale++; break;
                case RefusalBody { Reason: "measurement-missing" }: break;
                case var other: Assert.Fail($"{other.Kind} was not expected"); break;
            }
        }
    }
}
