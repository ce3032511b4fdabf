using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Loading;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Notes;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Roll;
using Stockseat.Answers.Snapshots;
using Stockseat.Answers.State;
using Stockseat.Answers.Tests.Support;
using Stockseat.Audit.Explaining;
using Stockseat.Seating.Frames;

namespace Stockseat.Audit.Tests.Explaining;

public sealed class OtherEntryTests
{
    private static readonly LotTerms Terms = new() { Nominal = 0.08, Tolerance = "h11", Plus = 0, Minus = 0.00019, OutOfRound = 0.0001 };

    private static Bench Good => Bench.Serving(Revisions.Good(limits: """{ "diameter": [ "70 mm", "90 mm" ], "recheck": "1 mm" }"""));

    [Fact]
    public void A_measurement_has_mean_and_spread_and_the_limits_that_both_are_compared_with()
    {
        var bench = Good;
        bench.Do(Bench.Push([0.0799, 0.0800], "A1077", terms: Terms));

        var working = Read.Last(bench);

        Assert.Equal(0.07995, working.Value("Measurement", "D"), 1e-15);
        Assert.Equal((0.0001, 0.0002), (working.Value("Measurement", "spread"), working.Value("Measurement", "allowed")));
        Assert.Equal(-0.0001, working.Value("Measurement", "spread - allowed"), 1e-15);
        Assert.Equal(0.07981, working.Value("Measurement", "D_least(lot)"), 1e-15);
        Assert.Equal(0.00995, working.Value("Envelope and limits", "D - D_least"), 1e-12);
    }

    [Fact]
    public void Readings_that_disagree_are_compared()
    {
        var bench = Good;
        bench.Refused(Reason.ReadingsDisagree, Bench.Push([0.0795, 0.0800]));

        var working = Read.Last(bench);

        Assert.Equal(0.0004, working.Value("Measurement", "spread - allowed"), 1e-12);
        Assert.Contains("readings-disagree", working.Sections[^1].Lines[0].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_recheck_shows_the_prediction_the_found_place_and_the_miss_along_the_plan_s_axes()
    {
        var bench = Bench.Serving(Revisions.Demo("veerack-2/r0002.json"));
        var recheck = (RecheckBody)bench.Do(
            new RecheckAsk(Bench.Controller, "veerack-2") { By = "setter", MasterMetres = 0.06985, FoundMetres = new Vector3(0.656, 0.181, 0.2402) });

        var working = Read.Last(bench);

        // The master of the taught diameter belongs at the taught origin; the rack is turned by 30 deg.
        var (c, s) = (Math.Sqrt(3) / 2, 0.5);
        Assert.Equal([0.001, 0.001, 0.0002], working.Values("Recheck", "miss").Select(m => Math.Round(m, 12)));
        Assert.Equal(0.001 * (c - s), working.Value("Recheck", "miss.along"), 1e-12);
        Assert.Equal(0.001 * (c + s), working.Value("Recheck", "miss.across"), 1e-12);
        Assert.Equal(0.0002, working.Value("Recheck", "miss.out"), 1e-12);
        Assert.Equal((recheck.Miss.Along, recheck.Miss.Across), (working.Value("Recheck", "miss.along"), working.Value("Recheck", "miss.across")));
        Assert.Equal(recheck.Predicted[0], working.Value("Shift and position in base", "x"), 1e-15);

        // There is no limits.recheck: U decides, and the miss across is beyond U.
        Assert.Equal(("|miss.across| - U.across", false), (working.Verdict().Symbol, recheck.Passed));
        Assert.Equal(0.001 * (c + s) - recheck.Expected!.Across, working.Verdict().Values[0], 1e-12);
    }

    [Theory]
    [InlineData("0.007", true)]
    [InlineData("0.0070", true)]
    [InlineData("0.008", false)]
    public void Each_number_read_back_is_compared_with_what_was_served(string read, bool same)
    {
        var bench = Good;
        var ask = new LocateAsk(Bench.Controller, "pinbed-1") { DiameterMetres = 0.0900, Decimals = 3 };
        var answer = (AnswerBody)bench.Do(ask);
        Assert.Equal(0.006743, answer.ShiftBase[1], 1e-6); // sqrt(51.3^2 - 30^2) - sqrt(46^2 - 30^2) mm
        bench.Confirm(answer.Serial, ("diameter", "0.090"), ("by", read));

        var working = Read.Last(bench);

        Assert.Equal(
            same, working.Words().Contains("the same at 3 decimals of m", StringComparison.Ordinal)
                && !working.Words().Contains("not the same", StringComparison.Ordinal));
        Assert.Equal(0, working.Value("Numbers read back", "diameter read - diameter"), 1e-15);
        Assert.Equal(!same, working.Sections.Any(s => s.Title == "Why it was refused"));
    }

    [Fact]
    public void A_confirmation_whose_answer_is_not_at_hand_says_so()
    {
        var bench = Good;
        var confirmation = bench.Confirm(bench.Locate(0.08).Serial, ("by", "0.000000"));

        var working = Working.Of(confirmation, bench.Before(confirmation.Serial), null);

        Sound.Check(working);
        Assert.Contains("Answer 2 was not found", working.Words(), StringComparison.Ordinal);
    }

    /// <summary>One entry of every kind that the ledger has.</summary>
    public static TheoryData<string> AllKinds => new(typeof(Kinds).GetFields().Select(f => (string)f.GetValue(null)!));

    [Theory]
    [MemberData(nameof(AllKinds))]
    public void Every_kind_has_a_working(string kind)
    {
        var bench = Good;
        var entry = Of(kind, bench);
        Assert.Equal(kind, entry.Kind);

        var working = Working.Of(entry, bench.Situation, null);

        Sound.Check(working);
        Assert.NotEmpty(working.Words());
    }

    /// <summary>The verbs of refusals that compute nothing.</summary>
    [Theory]
    [InlineData("emptied")]
    [InlineData("hold")]
    [InlineData("release")]
    [InlineData("adopt")]
    [InlineData("recheck")]
    [InlineData("roll")]
    [InlineData("describe-lot")]
    [InlineData("confirm")]
    [InlineData("done")]
    [InlineData("still")]
    [InlineData("note")]
    [InlineData("trial")]
    [InlineData("measured")]
    [InlineData("a verb of a later version")]
    public void Every_refused_verb_ends_with_the_reason(string verb)
    {
        var working = Working.Of(
            new RefusalBody
            {
                Asked = verb, Reason = "not-permitted", Number = 34, Text = "may not", Adopts = 2, Diameter = 0.08, Found = [1, 2, 3], Lot = "B2",
            }, Situation.Empty, null);

        Sound.Check(working);
        Assert.Equal($"{verb} was refused: not-permitted (reason 34).", working.Sections[^1].Lines[0].Text);
    }

    private static EntryBody Of(string kind, Bench bench) => kind switch
    {
        Kinds.ServiceStarted => new ServiceStartedBody { Program = "1.0", Host = "cell-1", Process = 7 },
        Kinds.ServiceStopped => new ServiceStoppedBody(),
        Kinds.UncleanStop => new UncleanStopBody { Last = 9 },
        Kinds.ClockStep => new ClockStepBody { Seconds = -3, Before = "2026-11-25T08:00:00.000000Z" },
        Kinds.RevisionAdopted => bench.Entries[0],
        Kinds.RevisionRejected => new RevisionRejectedBody { File = "aa", Faults = ["nest: is missing"] },
        Kinds.Measurement => bench.Measure(0.08, 0.08005),
        Kinds.Emptied => bench.Do(new EmptiedAsk(Bench.Controller, "pinbed-1")),
        Kinds.Held => bench.Do(new HoldAsk(Bench.Controller, "pinbed-1") { By = "setter", Why = "pins" }),
        Kinds.Released => new ReleasedBody { By = "setter", Why = "done", Of = "setter", Left = 0 },
        Kinds.LotDescribed => new LotDescribedBody { Lot = "A1077", LotTerms = Terms },
        Kinds.Seal => new SealBody { Ledger = "l", Sealed = 4, Head = "aa", Key = "bb", Signature = "cc" },
        Kinds.Snapshot => new SnapshotBody { Serial = 5, Carried = [] },
        Kinds.RolledOver => new RolledOverBody { Next = "m", By = "setter", Why = "full" },
        Kinds.Recheck => bench.Do(new RecheckAsk(Bench.Controller, "pinbed-1") { By = "setter", MasterMetres = 0.08, FoundMetres = default }),
        Kinds.Answer => bench.Locate(0.08),
        Kinds.Refusal => bench.Refused(Reason.DiameterAboveEnvelope, 0.2),
        Kinds.Confirmation => bench.Receive(bench.Locate(0.08)),
        Kinds.Done => bench.CarryOut(bench.Locate(0.09)),
        Kinds.Trial => bench.Do(new LocateAsk(Bench.Controller, "pinbed-1") { DiameterMetres = 0.08, IsTrial = true }),
        Kinds.Loaded => bench.Do(new LoadedAsk(Bench.Controller, "pinbed-1")),
        Kinds.Dropped => new DroppedBody { Fixture = "pinbed-1", Answer = 3, Load = 2, Purpose = "pick", Nest = [0, 0] },
        Kinds.Grid => bench.Do(new LocateAsk(Bench.Controller, "pinbed-1") { DiameterMetres = 0.08, IsGrid = true }),
        Kinds.Note => bench.Do(new NoteAsk(Bench.Controller, "pinbed-1") { By = "setter", Text = "gripper hit pin 2", Entry = 1 }),
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "a kind that this test can not make"),
    };
}
