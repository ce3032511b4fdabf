using System.Buffers;
using System.Text.Json;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Done;
using Stockseat.Answers.Events;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;
using Stockseat.Fixtures.Adoption;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Tests.Support;

/// <summary>Decides asks in the order given and keeps the entries, as the ledger's writer does, but without a disk.</summary>
internal sealed class Bench
{
    public static readonly DateTimeOffset Start = new(2026, 11, 25, 8, 0, 0, TimeSpan.Zero);
    public static readonly Caller Controller = new("bench", "demo", "127.0.0.1:4000", "17", "r-1");
    private FixtureFolder[] _folders;

    public Bench(params FixtureFolder[] folders)
    {
        _folders = folders;
        Situation = Situation.Empty.WithFolders(folders);
    }

    /// <summary>The version of the rules by which asks are decided.</summary>
    public int Rules { get; set; } = EntryBody.CurrentVersion;

    public Situation Situation { get; private set; }

    public DateTimeOffset Now { get; set; } = Start;

    public List<EntryBody> Entries { get; } = [];

    /// <summary>One fixture, with its highest revision adopted.</summary>
    public static Bench Serving(params RevisionFile[] files) => ServingBy(EntryBody.CurrentVersion, files);

    /// <summary>The same by the rules of a version.</summary>
    public static Bench ServingBy(int rules, params RevisionFile[] files)
    {
        var bench = new Bench(Revisions.Folder(files)) { Rules = rules };
        bench.OfFolders();
        return bench;
    }

    public List<EntryBody> OfFolders(FirstAdoption rule = FirstAdoption.Automatic) => [.. Adopting.OfFolders(Situation, rule).Select(Write)];

    /// <summary>Decides an ask and keeps its entry, unless its outcome is one that is there already.</summary>
    public EntryBody Do(Ask ask)
    {
        var body = Decision.Decide(ask with { Rules = Rules }, Situation, Now, s => Entries.Find(e => e.Serial == s) as ServedBody);
        return body.Serial > 0 ? body : Write(body);
    }

    /// <summary>Reads the whole shift of an answer back, as it was served, but for the numbers that are given.</summary>
    public EntryBody Receive(AnswerBody answer, params (string Name, string Text)[] instead) =>
        Confirm(answer.Serial, [.. new[] { "bx", "by", "bz" }.Where(n => !instead.Any(i => i.Name == n)).Select(n => (n, Served(answer, n))), .. instead]);

    public static string Served(AnswerBody answer, string name) =>
        FixedPoint.Text(answer.TryNumber(name, out var value) ? value : 0, answer.Decimals, answer.Exponent(name));

    /// <summary>An answer is received and carried out.</summary>
    public EntryBody CarryOut(AnswerBody answer)
    {
        Assert.IsType<ConfirmationBody>(Receive(answer));
        return Do(new DoneAsk(Controller, answer.Serial));
    }

    public AnswerBody Locate(double? diameter = null, string fixture = "pinbed-1", Purpose purpose = Purpose.Pick, int column = 0, int row = 0,
        string? lot = null) =>
        Assert.IsType<AnswerBody>(Do(Ask(diameter, fixture, purpose, column, row, lot)));

    public RefusalBody Refused(Reason reason, double? diameter = null, string fixture = "pinbed-1", Purpose purpose = Purpose.Pick, int column = 0, int row = 0,
        string? lot = null) =>
        Refused(reason, Ask(diameter, fixture, purpose, column, row, lot));

    public RefusalBody Refused(Reason reason, Ask ask)
    {
        var body = Assert.IsType<RefusalBody>(Do(ask));
        Assert.Equal((reason, (int)reason, ReasonInfo.Of(reason).Name, ask.Verb), (body.Refusal.Reason, body.Number, body.Reason, body.Asked));
        Assert.NotEmpty(body.Text);
        return body;
    }

    public EntryBody Measure(params double[] readings) => Do(Push(readings));

    public static MeasureAsk Push(double[] readings, string? lot = null, double? agreement = 0.0001, LotTerms? terms = null) => new(Controller, "pinbed-1")
    {
        ReadingsMetres = readings,
        Unit = "mm",
        Gauge = "bench-2",
        Lot = lot,
        LotTerms = lot is null ? null : terms ?? new(),
        Terms = new("bench-2", agreement, TimeSpan.FromHours(8)),
    };

    public EntryBody Confirm(long serial, params (string Name, string Text)[] read) =>
        Do(new ConfirmAsk(Controller, serial) { ReadBack = read.ToDictionary(r => r.Name, r => r.Text) });

    public EntryBody Adopt(int number) =>
        Do(new AdoptAsk(Controller, "pinbed-1", number) { By = "setter", Why = "bed moved", Folder = Array.Find(_folders, f => f.Fixture == "pinbed-1") });

    public void ReadFolders(params FixtureFolder[] folders) => Situation = Situation.WithFolders(_folders = folders);

    /// <summary>Everything in memory is lost; the entries' bytes are read back and applied in their order.</summary>
    /// <param name="ofCarried">Whether only those entries are there that a snapshot or a new ledger carries.</param>
    public void Restart(bool ofCarried = false)
    {
        var entries = ofCarried ? Carrying.Of(Entries, Situation) : Entries;
        Situation = Situation.Empty;
        foreach (var entry in entries)
        {
            Situation = Situation.Apply(BodyJson.Read(entry.Kind, Bytes(entry))!);
        }

        Situation = Situation.WithFolders(_folders);
    }

    /// <summary>The situation right before an entry, with the folders as they are now.</summary>
    public Situation Before(long serial) =>
        Entries.TakeWhile(e => e.Serial < serial).Aggregate(Situation.Empty.WithFolders(_folders), (held, entry) => held.Apply(entry));

    public static byte[] Bytes(EntryBody body)
    {
        var buffer = new ArrayBufferWriter<byte>();
        using var writer = new Utf8JsonWriter(buffer);
        BodyJson.Write(writer, body);
        writer.Flush();
        return buffer.WrittenSpan.ToArray();
    }

    private static LocateAsk Ask(double? diameter, string fixture, Purpose purpose, int column, int row, string? lot) =>
        new(Controller, fixture) { DiameterMetres = diameter, Purpose = purpose, Column = column, Row = row, Lot = lot, LotTerms = lot is null ? null : new() };

    /// <summary>The clock is set by that number of seconds, and the writer notices at once.</summary>
    public ClockStepBody Set(double seconds, bool atStart = false)
    {
        var before = EntryTime.Text(Now);
        Now += TimeSpan.FromSeconds(seconds);
        return (ClockStepBody)Write(new ClockStepBody { Seconds = seconds, Before = before, AtStart = atStart });
    }

    private EntryBody Write(EntryBody body)
    {
        body.Serial = Entries.Count + 1;
        body.At = EntryTime.Text(Now);
        Entries.Add(body);
        Situation = Situation.Apply(body);
        return body;
    }
}
