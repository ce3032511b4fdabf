using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Done;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Still;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Tests.Rolling;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Tests.Support.Clocks;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Audit.Tests.Replaying;

/// <summary>
/// A ledger with every kind of entry and every reason that an entry can have, across restarts, a kill, clock steps, adoptions and rolls.
/// </summary>
internal static class Varied
{
    private const string Limits =
        """, "limits": { "recheck": "0.5 mm", "firstAbove": "0.1 mm" }, "standOff": { "pick": "0.3 mm", "place": "0.5 mm" }"""
        + """, "layout": [ { "direction": "u", "count": 3, "pitch": "200 mm" } ]""";
    private const string Sure = """, "uncertainty": { "askedDiameter": "0.01 mm", "teaching": "0.05 mm", "robot": "0.02 mm" }""";
    private const string Strict = """, "limits": { "shift": "5 mm", "uncertainty": "0.001 mm" }""";
    private const string Heavy = """, "stock": { "density": "7850 kg/m3", "length": "100 mm" }, "limits": { "payload": "8 kg" }""";
    private static readonly Caller Who = new("bench", "demo", "127.0.0.1:1", "7");

    /// <summary>Reasons that no entry here has: those of a request refused before it becomes an ask, and those of refusals without an entry.</summary>
    public static IReadOnlySet<Reason> Elsewhere { get; } = new HashSet<Reason>
    {
        Reason.None, Reason.DiameterMalformed, Reason.UnitMissing, Reason.UnitUnknown, Reason.PurposeUnknown, Reason.VerbUnknown, Reason.KeyDoubled,
        Reason.RequestMalformed, Reason.RequestTooLong, Reason.LedgerUnavailable, Reason.ShuttingDown, Reason.InternalFailure,
    };

    public static FixtureFolder Folder(params RevisionFile[] files) => new("bed", files, []);

    public static RevisionFile File(int number, string more = Limits + Sure) => TestLedger.Revision(number, more);

    /// <summary>Makes such a ledger; its service is stopped cleanly.</summary>
    public static async Task<TestLedger> Make()
    {
        var time = new SteppedTime();
        var ledger = new TestLedger(time) { Fixture = Folder(File(1)) };
        await ledger.Begin();
        await Asks(ledger, time);
        await Confirmations(ledger);
        await ledger.Kill();
        ledger.Unclean = true;
        await ledger.Begin();
        ledger.Unclean = false;
        await Holds(ledger);
        await Lots(ledger, time);
        await ledger.Roll();
        await Asks(ledger, time);
        await Folders(ledger, time);
        await Rechecks(ledger);
        await ledger.Roll("ledger-3");
        await Confirmations(ledger);
        await VariedLoads.Play(ledger);
        await ledger.End();
        return ledger;
    }

    /// <summary>The bodies of a ledger that never rolled over, in order.</summary>
    public static async Task<(byte[] File, IReadOnlyList<string> Bodies)> Small()
    {
        var time = new SteppedTime();
        using var ledger = new TestLedger(time) { Fixture = Folder(File(1)) };
        await ledger.Begin();
        await Asks(ledger, time);
        await Confirmations(ledger);
        await Holds(ledger);
        await Lots(ledger, time);
        await Folders(ledger, time);
        await Rechecks(ledger);
        await ledger.End();
        return (await System.IO.File.ReadAllBytesAsync(ledger.File), [.. ledger.Rows().Select(r => r.Body)]);
    }

    private static async Task Asks(TestLedger ledger, SteppedTime time)
    {
        await ledger.Do<EmptiedBody>(new EmptiedAsk(Who, "bed"));
        await ledger.Do<RefusalBody>(TestLedger.Locate(null)); // measurement-missing
        await ledger.Do<MeasurementBody>(Push([0.0901, 0.0902], agreement: 0.0002) with { Unit = "mm" });
        var since = ledger.Writer.Serial;
        // measurement-stale: older than the one in use
        await ledger.Do<RefusalBody>(Push([0.0905]) with { Since = since, FirstAt = time.GetTimestamp() - (30 * time.TimestampFrequency) });
        await ledger.Do<AnswerBody>(TestLedger.Locate(null) with { Decimals = 3, Unit = ServedUnit.Millimetre });
        await ledger.Do<AnswerBody>(TestLedger.Locate(0.09) with { Column = 2, NominalMetres = 0.09, WithinMetres = 0.0001 });
        await ledger.Do<RefusalBody>(TestLedger.Locate(null) with { NominalMetres = 0.08, WithinMetres = 0.0001 }); // measurement-outside-lot
        await ledger.Do<RefusalBody>(TestLedger.Locate(0.01)); // diameter-below-envelope
        await ledger.Do<RefusalBody>(TestLedger.Locate(2)); // diameter-above-envelope
        await ledger.Do<RefusalBody>(TestLedger.Locate(null) with { Purpose = Purpose.Place }); // diameter-missing
        await ledger.Do<RefusalBody>(TestLedger.Locate() with { Column = 9 }); // nest-unknown
        await ledger.Do<RefusalBody>(TestLedger.Locate(0.095) with { Purpose = Purpose.Place }); // diameter-above-raw
        await ledger.Do<RefusalBody>(TestLedger.Locate() with { Denied = AboutAnswers.Required(Reason.KeyMissing, "lot") });
        await ledger.Do<RefusalBody>(TestLedger.Locate() with { Denied = AboutAnswers.Required(Reason.NotMeasured, "measured") });
        await ledger.Do<RefusalBody>(Push([0.09]) with { Denied = AboutAnswers.Required(Reason.KeyMissing, "gauge") });
        await AboutAnswers.Trials(ledger);
        await ledger.Do<RefusalBody>(TestLedger.Locate() with { Denied = Refusal.Of(Reason.NotPermitted, "locate needs a role", ("client", "bench")) });
        await ledger.Do<RefusalBody>(new LocateAsk(Who, "nowhere") { DiameterMetres = 0.09 }); // fixture-unknown
        await ledger.Do<RefusalBody>(Push([0.09, 0.0905], agreement: 1e-5)); // readings-disagree
        await ledger.Do<RefusalBody>(TestLedger.Locate(null)); // voided
        await ledger.Do<RefusalBody>(Push([0.09], gauge: "none") with { Terms = null }); // gauge-unknown
        await ledger.Do<RefusalBody>(Push([5])); // beyond the envelope
        await ledger.Do<RefusalBody>(Push([0.09]) with { Denied = Refusal.Of(Reason.NotPermitted, "no") });
        await ledger.Do<RefusalBody>(new MeasureAsk(Who, "nowhere") { ReadingsMetres = [0.09], Terms = new(null, null, TimeSpan.FromSeconds(0.3)) });
        await ledger.Do<RefusalBody>(new EmptiedAsk(Who, "nowhere"));
        await ledger.Do<MeasurementBody>(
            Push([0.09]) with
            {
                Terms = new("g", null, TimeSpan.FromSeconds(0.3)) { Limits = new() { LimitsOfError = 0.00001, Resolution = 0.00001 } }, Gauge = "g",
            });
        await ledger.Do<AnswerBody>(TestLedger.Locate(null));
        time.Advance(TimeSpan.FromMinutes(5));
        await ledger.Do<RefusalBody>(TestLedger.Locate(null)); // measurement-stale
        await AboutAnswers.Superseded(ledger, "age");
        await ledger.Do<MeasurementBody>(TestLedger.Measured(0.091));
        time.Set(TimeSpan.FromMinutes(-3));
        await ledger.Do<RefusalBody>(TestLedger.Locate(null)); // measurement-stale, because of the clock step
        await AboutAnswers.Superseded(ledger, "measurement");
        time.Set(TimeSpan.FromMinutes(10));
        await ledger.Do<RefusalBody>(TestLedger.Locate(null));
        await ledger.Do<EmptiedBody>(new EmptiedAsk(Who, "bed") { Undecided = "ledger-unavailable" });
        // measurement-stale: the nests were emptied since the readings
        await ledger.Do<RefusalBody>(Push([0.0905]) with { Since = since, FirstAt = time.GetTimestamp() - (time.TimestampFrequency / 2) });
        await ledger.Do<MeasurementBody>(Push([0.0905]) with { Since = ledger.Writer.Serial, FirstAt = time.GetTimestamp() - (time.TimestampFrequency / 4) });
        ledger.Writer.Doubt(Push([0.0907]), Refusal.Of(Reason.TooBusy, "too many are waiting"));
        await ledger.Do<RefusalBody>(TestLedger.Locate(null));
        await ledger.Do<MeasurementBody>(TestLedger.Measured(0.0915));
        await ledger.Do<AnswerBody>(TestLedger.Locate(null));
    }

    private static async Task Confirmations(TestLedger ledger)
    {
        var pick = await ledger.Do<AnswerBody>(TestLedger.Locate(0.09, request: $"pick-{ledger.Writer.Serial}"));
        await ledger.Do<RefusalBody>(TestLedger.Confirm(pick.Serial) with { ReadBack = new Dictionary<string, string> { ["bx"] = "0" } }); // readback-missing
        await ledger.Do<ConfirmationBody>(TestLedger.Confirm(pick.Serial)); // without numbers
        await ledger.Do<RefusalBody>(TestLedger.Done(pick.Serial)); // confirmation-missing
        Assert.True((await ledger.Do<AnswerBody>(TestLedger.Locate(0.09))).First);
        await ledger.CarryOut(pick);
        await ledger.Do<DoneBody>(TestLedger.Done(pick.Serial) with { By = "setter" }); // said again
        var place = await ledger.Do<AnswerBody>(TestLedger.Locate(0.085) with { Purpose = Purpose.Place });
        await ledger.CarryOut(place);
        Assert.False((await ledger.Do<AnswerBody>(TestLedger.Locate(0.09))).First);
        Assert.False((await ledger.Do<AnswerBody>(TestLedger.Locate(0.085) with { Purpose = Purpose.Place })).First);
        Assert.True((await ledger.Do<AnswerBody>(TestLedger.Locate(0.1))).First);
        await ledger.Do<RefusalBody>(TestLedger.Confirm(pick.Serial, by: "9.000000")); // readback-differs
        await ledger.Do<RefusalBody>(TestLedger.Confirm(pick.Serial, by: "x")); // value-malformed
        await ledger.Do<RefusalBody>(new ConfirmAsk(Who, pick.Serial) { ReadBack = new Dictionary<string, string> { ["c"] = "1" } }); // key-unknown
        await ledger.Do<RefusalBody>(new ConfirmAsk(Who, pick.Serial) { Fixtures = new HashSet<string>() }); // not-permitted: the answer's fixture
        // not-permitted: another client's answer
        await ledger.Do<RefusalBody>(new ConfirmAsk(new("gantry", null, null), pick.Serial) { OwnAnswersOnly = true });
        await ledger.Do<RefusalBody>(new ConfirmAsk(Who, pick.Serial) { Denied = Refusal.Of(Reason.NotPermitted, "no") });
        await ledger.Do<RefusalBody>(new ConfirmAsk(Who, pick.Serial) { Denied = AboutAnswers.Required(Reason.KeyMissing, "readback") });
        await AboutAnswers.Refused(ledger, pick.Serial, s => new DoneAsk(Who, s));
        await AboutAnswers.Refused(ledger, pick.Serial, s => new StillAsk(Who, s));
        await ledger.Do<RefusalBody>(new StillAsk(Who, pick.Serial)); // answer-superseded
        await ledger.Do<RefusalBody>(TestLedger.Confirm(1)); // serial-unknown
        await ledger.Do<RefusalBody>(TestLedger.Confirm(pick.Serial + 100_000));
        await ledger.Do<RefusalBody>(TestLedger.Locate(0.07, request: pick.Request)); // the request id of another ask
        await ledger.Do<MeasurementBody>(TestLedger.Measured(0.09, request: $"push-{ledger.Writer.Serial}"));
        var pushed = (await ledger.Do<AnswerBody>(TestLedger.Locate(null, request: $"ask-{ledger.Writer.Serial}"))).Request;
        await ledger.Do<MeasurementBody>(TestLedger.Measured(0.0901));
        Assert.NotNull((await ledger.Do<RefusalBody>(TestLedger.Locate(null, request: pushed))).RetryOf); // the hold has ended
    }

    private static async Task Holds(TestLedger ledger)
    {
        await ledger.Do<HeldBody>(new HoldAsk(Who, "bed") { By = "setter", Why = "pins \"cleaned\", ± 0" });
        await ledger.Do<HeldBody>(new HoldAsk(Who, "bed") { By = "oil", Why = "oil" });
        await ledger.Do<RefusalBody>(TestLedger.Locate()); // fixture-held
        await AboutAnswers.Superseded(ledger, "fixture-held");
        await ledger.Do<RefusalBody>(Release("nobody"));
        await ledger.Do<ReleasedBody>(Release("oil"));
        await ledger.Do<ReleasedBody>(Release("setter"));
        await ledger.Do<RefusalBody>(Release("setter"));
        await ledger.Do<RefusalBody>(new HoldAsk(Who, "nowhere") { By = "a", Why = "b" });
        await ledger.Do<RefusalBody>(new HoldAsk(Who, "bed") { By = "a", Why = "b", Denied = Refusal.Of(Reason.NotPermitted, "no") });
    }

    private static async Task Lots(TestLedger ledger, SteppedTime time)
    {
        var terms = new LotTerms { Nominal = 0.09, Tolerance = "h11", Plus = 0, Minus = 0.00022, OutOfRound = 0.0001 };
        await ledger.Do<RefusalBody>(new LocateAsk(Who, "bed") { DiameterMetres = 0.09, Lot = "B7" }); // lot-unknown
        await ledger.Do<RefusalBody>(new MeasureAsk(Who, "bed") { ReadingsMetres = [0.09], Lot = "B7", Terms = new(null, null, TimeSpan.FromHours(1)) });
        await ledger.Do<LotDescribedBody>(new DescribeLotAsk(Who, "A1") { Terms = terms, Configured = false });
        await ledger.Do<RefusalBody>(new DescribeLotAsk(Who, "A2") { Terms = terms, Configured = true });
        await ledger.Do<MeasurementBody>(
            new MeasureAsk(Who, "bed") { ReadingsMetres = [0.0899, 0.08995], Lot = "A1", Terms = new("g", 0.00001, TimeSpan.FromHours(1)), Gauge = "g" });
        await ledger.Do<AnswerBody>(new LocateAsk(Who, "bed") { Lot = "A1" });
        await ledger.Do<AnswerBody>(new LocateAsk(Who, "bed"));
        await ledger.Do<AnswerBody>(new LocateAsk(Who, "bed") { DiameterMetres = 0.0899, Lot = "A1" });
        await ledger.Do<RefusalBody>(new LocateAsk(Who, "bed") { Lot = "A3", LotTerms = new() }); // a measurement of another lot
        await ledger.Do<RefusalBody>(new LocateAsk(Who, "bed") { DiameterMetres = 0.0899 * 25.4 / 25, Lot = "A1" });
        await ledger.Do<RefusalBody>(new MeasureAsk(Who, "bed") { ReadingsMetres = [0.08], Lot = "A1", Terms = new(null, null, TimeSpan.FromHours(1)) });
        await ledger.Do<RefusalBody>(TestLedger.Measured(0.09, lot: "A4")); // lot-still-loaded
        time.Advance(TimeSpan.FromSeconds(1));
    }

    private static async Task Folders(TestLedger ledger, SteppedTime time)
    {
        await Read(ledger, null);
        await ledger.Do<RefusalBody>(TestLedger.Locate()); // fixture-withdrawn
        await AboutAnswers.Superseded(ledger, "fixture-withdrawn");
        await ledger.Do<HeldBody>(new HoldAsk(Who, "bed") { By = "setter", Why = "gone" });
        await ledger.Do<ReleasedBody>(Release("setter"));
        await Read(ledger, Folder(File(1, Limits)));
        await ledger.Do<RefusalBody>(TestLedger.Locate()); // revision-changed
        await AboutAnswers.Superseded(ledger, "revision-changed");
        await ledger.Do<RefusalBody>(Recheck(new(0, 0, 0)));
        await Read(ledger, ledger.Fixture = Folder(File(1), File(2)));
        await ledger.Do<AnswerBody>(TestLedger.Locate());
        await ledger.Do<RefusalBody>(Adopt(9)); // revision-unknown
        await ledger.Do<RefusalBody>(Adopt(2) with { Denied = Refusal.Of(Reason.NotPermitted, "no") });
        await ledger.Do<RefusalBody>(new AdoptAsk(Who, "nowhere", 1) { By = "a", Why = "b", Folder = null });
        await ledger.Do<RefusalBody>(Adopt(2) with { Folder = ledger.Fixture, Digest = new string('0', 12) }); // revision-changed
        await ledger.Do<RevisionAdoptedBody>(Adopt(2) with { Folder = ledger.Fixture, Digest = ledger.Fixture.Find(2)!.Reading.Revision!.Digest[..12] });
        await AboutAnswers.Superseded(ledger, "adoption");
        await ledger.Do<RefusalBody>(Adopt(2) with { Folder = ledger.Fixture, Expects = 1 }); // revision-changed-meanwhile
        await ledger.Do<RefusalBody>(Adopt(1) with { Folder = ledger.Fixture }); // below the revision in force
        Assert.True((await ledger.Do<AnswerBody>(TestLedger.Locate())).First);
        // A confirmation of an answer from the previous revision counts for nothing.
        var before = (AnswerBody)ledger.Rows().First(r => r.Kind == Kinds.Answer).ReadBody()!;
        await ledger.Do<ConfirmationBody>(TestLedger.Received(before));
        await ledger.Do<RefusalBody>(TestLedger.Done(before.Serial));
        Assert.True((await ledger.Do<AnswerBody>(TestLedger.Locate())).First);
        var other = new FixtureFolder("other", [new(3, "other/r0003.json", "f", new(null, ["broken"]))], []);
        await TestLedger.Soon(ledger.Writer.Append(s => Adopting.OfFolders(s, Fixtures.Adoption.FirstAdoption.Automatic), [ledger.Fixture, other]));
        await ledger.Do<RefusalBody>(new LocateAsk(Who, "other") { DiameterMetres = 0.09 }); // calibration-unusable
        await ledger.Do<MeasurementBody>(new MeasureAsk(Who, "other") { ReadingsMetres = [0.09], Terms = new(null, null, TimeSpan.FromHours(1)) });
        await ledger.Do<RefusalBody>(new MeasureAsk(Who, "other") { ReadingsMetres = [0.09, 0.1], Terms = new(null, 0.0001, TimeSpan.FromHours(1)) });
        var strict = ledger.Fixture = Folder(File(1), File(2), TestLedger.Revision(3, Strict + Sure));
        await ledger.Do<RevisionAdoptedBody>(Adopt(3) with { Folder = strict });
        await ledger.Do<RefusalBody>(TestLedger.Locate(0.081)); // uncertainty-above-limit
        await ledger.Do<RefusalBody>(TestLedger.Locate(0.095)); // shift-above-limit
        time.Advance(TimeSpan.FromSeconds(1));
    }

    private static async Task Rechecks(TestLedger ledger)
    {
        ledger.Fixture = Folder(File(1), File(2), TestLedger.Revision(3, Strict + Sure), File(4));
        await ledger.Do<RevisionAdoptedBody>(Adopt(4) with { Folder = ledger.Fixture });
        await ledger.Do<RecheckBody>(Recheck(new(0.2, 0.0001, 0)) with { Note = "n", WithinMetres = 0.000002, Column = 1 });
        await ledger.Do<RecheckBody>(Recheck(new(0, 0, 0)));
        await ledger.Do<RefusalBody>(Recheck(new(0, 0, 0)) with { Column = 7 });
        await ledger.Do<RefusalBody>(Recheck(new(0, 0, 0)) with { MasterMetres = 5 });
        await ledger.Do<RecheckBody>(Recheck(new(0, 0.002, 0)));
        await ledger.Do<AnswerBody>(TestLedger.Locate());
        await ledger.Do<RecheckBody>(Recheck(new(0, 0.003, 0)) with { RefuseAfterMiss = true });
        await AboutAnswers.Superseded(ledger, "recheck");
        await ledger.Do<RefusalBody>(TestLedger.Locate()); // recheck-failed
        await ledger.Do<RevisionAdoptedBody>(Adopt(4) with { Folder = ledger.Fixture });
        await ledger.Do<RefusalBody>(TestLedger.Locate());
        ledger.Fixture = Folder([.. ledger.Fixture.Files, File(5)]);
        await ledger.Do<RevisionAdoptedBody>(Adopt(5) with { Folder = ledger.Fixture });
        await ledger.Do<AnswerBody>(TestLedger.Locate());
        ledger.Fixture = Folder([.. ledger.Fixture.Files, TestLedger.Revision(6, Heavy)]);
        await ledger.Do<RevisionAdoptedBody>(Adopt(6) with { Folder = ledger.Fixture });
        await ledger.Do<RefusalBody>(TestLedger.Locate(0.12)); // mass-above-limit
        await ledger.Do<AnswerBody>(TestLedger.Locate());
        await ledger.Do<RefusalBody>(Rolled.Ask() with { Denied = Refusal.Of(Reason.NotPermitted, "no") });
    }

    private static Task Read(TestLedger ledger, FixtureFolder? folder) =>
        TestLedger.Soon(ledger.Writer.Append(s => Adopting.OfFolders(s, Fixtures.Adoption.FirstAdoption.Automatic), folder is null ? [] : [folder]));

    private static MeasureAsk Push(double[] readings, double? agreement = null, string? gauge = null) =>
        new(Who, "bed") { ReadingsMetres = readings, Gauge = gauge, Terms = new(gauge, agreement, TimeSpan.FromHours(8)) };

    private static AdoptAsk Adopt(int number) => new(Who, "bed", number) { By = "setter", Why = "moved", Folder = Folder(File(1)) };

    private static ReleaseAsk Release(string of) => new(Who, "bed") { By = "setter", Why = "done", Of = of };

    private static RecheckAsk Recheck(Seating.Frames.Vector3 found) => new(Who, "bed") { By = "setter", MasterMetres = 0.08, FoundMetres = found };
}
