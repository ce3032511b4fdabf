using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Done;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Notes;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;
using Stockseat.Audit.Reviewing;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Showing;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Seating.Frames;
using Stockseat.Tests.Support.Clocks;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Audit.Tests.Reviewing;

/// <summary>
/// A day at the fixture bed, written by the service's own writer: ten seconds pass before each event. 80 mm stock is taught, on pins 60 mm apart.
/// </summary>
internal sealed class Day : IDisposable
{
    public const string Robot = "press-cell";

    private static readonly TimeSpan Pace = TimeSpan.FromSeconds(10);

    private Day(TestLedger ledger, SteppedTime time) => (Ledger, Time) = (ledger, time);

    public TestLedger Ledger { get; }

    public SteppedTime Time { get; }

    public DateTimeOffset Now => Time.GetUtcNow();

    /// <summary>Lot A allows 78 to 82 mm.</summary>
    public static LotTerms Terms { get; } = new() { Nominal = 0.080, Plus = 0.002, Minus = 0.002 };

    public static async Task<Day> Begin(string more = "", int rules = EntryBody.CurrentVersion)
    {
        var time = new SteppedTime();
        var ledger = new TestLedger(time)
        {
            Fixture = new("bed", [TestLedger.Revision(1, more)], []), Rules = rules, Tables = rules == 1 ? 1 : LedgerFile.SchemaVersion,
        };
        return new(await ledger.Begin(), time);
    }

    public void Pass(TimeSpan time) => Time.Advance(time);

    public async Task<T> Do<T>(Ask ask)
        where T : EntryBody
    {
        Pass(Pace);
        return await Ledger.Do<T>(ask);
    }

    public Task<MeasurementBody> Measure(double mm, string? lot = null, LotTerms? terms = null) => Do<MeasurementBody>(Push([mm], lot, terms));

    public Task<RefusalBody> MeasureRefused(double[] mm, string? lot = null, LotTerms? terms = null, double? agreementMm = null) =>
        Do<RefusalBody>(Push(mm, lot, terms, agreementMm));

    public Task<AnswerBody> Locate(
        double? mm = null, string client = Robot, Purpose purpose = Purpose.Pick, ServedUnit unit = ServedUnit.Metre, int decimals = 6) =>
        Do<AnswerBody>(Ask(mm, client, purpose) with { Unit = unit, Decimals = decimals });

    public Task<RefusalBody> LocateRefused(double? mm = null, string client = Robot) => Do<RefusalBody>(Ask(mm, client, Purpose.Pick));

    /// <summary>Locates, confirms with the shift read back, and says that it is done.</summary>
    public async Task<AnswerBody> Use(double? mm = null, string client = Robot, Purpose purpose = Purpose.Pick)
    {
        var answer = await Locate(mm, client, purpose);
        await Confirm(answer, client);
        await Done(answer, client);
        return answer;
    }

    public Task<ConfirmationBody> Confirm(AnswerBody answer, string client = Robot) =>
        Do<ConfirmationBody>(new ConfirmAsk(new(client, "demo", null), answer.Serial)
        {
            ReadBack = new[] { "bx", "by", "bz" }.Zip(answer.ShiftBase).ToDictionary(
                p => p.First, p => FixedPoint.Text(p.Second, answer.Decimals, answer.Exponent(p.First))),
        });

    /// <summary>As programs of version 1 asked: for what was measured, without naming a lot; and a bare confirmation.</summary>
    public async Task<AnswerBody> ConfirmedOfVersion1()
    {
        var answer = await Locate();
        await ConfirmBare(answer);
        return answer;
    }

    public Task<DoneBody> Done(AnswerBody answer, string client = Robot) => Do<DoneBody>(new DoneAsk(new(client, "demo", null), answer.Serial));

    public Task<RefusalBody> Misread(AnswerBody answer, string name, string text) => Do<RefusalBody>(Read(answer.Serial, Robot, name, text));

    public Task<NoteBody> Note(string text, long? entry = null, DateTimeOffset? instant = null) =>
        Do<NoteBody>(new NoteAsk(new("tablet", "demo", null), "bed") { By = "fitter", Text = text, Entry = entry, Instant = instant });

    public Task<RefusalBody> PlaceRefused(double mm) => Do<RefusalBody>(Ask(mm, Robot, Purpose.Place));

    public Task<EmptiedBody> Emptied() => Do<EmptiedBody>(new EmptiedAsk(new("panel", "demo", null), "bed"));

    public Task<HeldBody> Hold(string by) => Do<HeldBody>(new HoldAsk(new("tablet", "demo", null), "bed") { By = by, Why = "clearing chips" });

    public Task<ReleasedBody> Release(string by) => Do<ReleasedBody>(new ReleaseAsk(new("tablet", "demo", null), "bed") { By = by, Why = "done", Of = by });

    /// <summary>The controller says that it has the answer, and reads no number back.</summary>
    public Task<ConfirmationBody> ConfirmBare(AnswerBody answer) => Do<ConfirmationBody>(new ConfirmAsk(new(Robot, "demo", null), answer.Serial));

    public async Task<RevisionAdoptedBody> Adopt(int number, string more = "", string by = "setter")
    {
        var folder = Ledger.Fixture = new(
            "bed",
            [.. Ledger.Fixture.Files, .. Ledger.Fixture.Find(number) is null ? [TestLedger.Revision(number, more)] : (Fixtures.Revisions.RevisionFile[])[]],
            []);
        return await Do<RevisionAdoptedBody>(new AdoptAsk(new("tablet", "demo", null), "bed", number) { By = by, Why = "bed moved", Folder = folder });
    }

    /// <summary>A master of the taught diameter, found that far off along the seat axis. Limit: the one that the revision states.</summary>
    public Task<RecheckBody> Recheck(double offMm, bool refuse = false) =>
        Do<RecheckBody>(
            new RecheckAsk(
                new("tablet", "demo", null), "bed") { By = "setter", MasterMetres = 0.080, FoundMetres = new Vector3(0, offMm / 1000, 0),
                RefuseAfterMiss = refuse });

    /// <summary>Masters are found where the revision predicts them until it is proven; it has to state what a recheck may miss by.</summary>
    public async Task Prove()
    {
        static double Seated(double diameter) => Math.Sqrt(Math.Pow((diameter / 2) + 0.006, 2) - (0.030 * 0.030)); // the centre above the pins, by hand
        while (Ledger.Writer.Situation.Find("bed")!.Unproven is [var lack, ..])
        {
            var master = lack.AtLeastMetres ?? lack.AtMostMetres ?? 0.080;
            Assert.True((await Do<RecheckBody>(new RecheckAsk(new("tablet", "demo", null), "bed")
            {
                By = "setter", MasterMetres = master, FoundMetres = new Vector3(0, Seated(master) - Seated(0.080), 0),
            })).Passed);
        }
    }

    /// <summary>The review around the present moment, or around an entry.</summary>
    public Review Review(ReviewQuestion? question = null, Func<Review, Review>? with = null)
    {
        question ??= new();
        var rows = Ledger.Rows();
        var at = question.At ?? (question.Serial is { } serial ? EntryTime.Parse(rows.Single(r => r.Serial == serial).At) : Now);
        var all = rows.Select(r => new ReviewEntry(r, r.ReadBody())).ToList();
        var bodies = all.Select(e => e.Body!).ToList();
        ReviewEntry[] shown = [.. all.Where(e => e.At >= at - question.Before && e.At <= at + question.After)];
        var review = new Review
        {
            Ledger = "ledger-1", HeadSerial = rows[^1].Serial, HeadHash = Convert.ToHexStringLower(rows[^1].Hash), Question = question, At = at,
            Entries = shown,
            Then = question.Serial ?? all.FindLast(e => e.At <= at)?.Serial ?? 0,
            Adoptions = [.. bodies.OfType<RevisionAdoptedBody>()],
            Fixtures = [Then([.. bodies.Where(b => question.Serial is { } s ? b.Serial <= s : EntryTime.Parse(b.At) <= at)])],
            Answers = [.. shown.Select(e => e.Body).OfType<AnswerBody>().Select(a => Served(a, bodies))],
            Evidence = new(null, Ledger.Verify(), new(1, rows[^1].Serial, 0, 0, shown.Length, shown.Length, 0, 0, [], 0, null)),
        };
        return ReviewFindings.With(with is null ? review : with(review), Display.Plain);
    }

    /// <summary>The review that is made of the ledger's file, around the present moment or around an entry.</summary>
    public Review OfFile(ReviewQuestion? question = null) =>
        LedgerReview.Of(Ledger.Folder, question ?? new() { At = Now }, () => Ledger.Verify(), Display.Plain, CancellationToken.None)!;

    public void Dispose() => Ledger.Dispose();

    private static FixtureThen Then(List<EntryBody> before)
    {
        var state = before.Aggregate(Situation.Empty, (s, b) => s.Apply(b)).Find("bed");
        return new()
        {
            Fixture = "bed",
            Adopted = before.OfType<RevisionAdoptedBody>().LastOrDefault(),
            Holds = [.. state?.Holds.Values ?? []],
            Measurement = before.OfType<MeasurementBody>().FirstOrDefault(m => m.Serial == state?.Measurement?.Serial),
            NoMeasurement = state?.Measurement is null ? state?.NoMeasurement : null,
            Emptied = before.OfType<EmptiedBody>().LastOrDefault(),
            Missed = state?.Missed?.Entry as RecheckBody,
            Unproven = state?.Unproven ?? [],
            LastAnswer = before.OfType<AnswerBody>().LastOrDefault(),
        };
    }

    private static ServedAnswer Served(AnswerBody answer, List<EntryBody> all)
    {
        var before = all.OfType<AnswerBody>().LastOrDefault(b => b.Serial < answer.Serial && b.Purpose == answer.Purpose && b.Nest.SequenceEqual(answer.Nest));
        return new()
        {
            Answer = answer,
            Measurement = all.OfType<MeasurementBody>().FirstOrDefault(m => m.Serial == answer.Measurement),
            Before = before,
            Between = before is null ? null : [.. all.Where(b => b is EmptiedBody or MeasurementBody && b.Serial > before.Serial && b.Serial < answer.Serial)],
            Change = before is null ? null : [.. answer.ShiftBase.Zip(before.ShiftBase, (a, b) => a - b)],
            ConfirmedBy = all.OfType<ConfirmationBody>().FirstOrDefault(c => c.Confirms == answer.Serial)?.Serial,
            Misread = [.. all.OfType<RefusalBody>().Where(r => r.Confirms == answer.Serial)],
        };
    }

    private static MeasureAsk Push(double[] mm, string? lot, LotTerms? terms, double? agreementMm = null) => new(new("gauge", "demo", null), "bed")
    {
        ReadingsMetres = [.. mm.Select(m => m / 1000)], Gauge = "bench-2", Lot = lot, LotTerms = lot is null ? null : terms ?? new(),
        Terms = new("bench-2", agreementMm / 1000, TimeSpan.FromHours(8)),
    };

    private static LocateAsk Ask(double? mm, string client, Purpose purpose) =>
        new(new(client, "demo", null), "bed") { DiameterMetres = mm / 1000, Purpose = purpose };

    private static ConfirmAsk Read(long serial, string client, string name, string text) =>
        new(new(client, "demo", null), serial) { ReadBack = new Dictionary<string, string> { [name] = text } };
}
