using System.Buffers;
using System.Text;
using System.Text.Json;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Store;
using Stockseat.Seating.Seats;

namespace Stockseat.Sheets.Tests.Support;

/// <summary>
/// Makes reviews without a ledger: entries one after another, with true shifts, hashes and adoptions. The end-to-end tests use it too.
/// </summary>
internal sealed class ReviewMaker
{
    public static readonly DateTimeOffset At = new(2026, 3, 12, 13, 5, 12, 345, TimeSpan.Zero);

    private readonly Dictionary<string, Revision> _revisions = [];
    private readonly Dictionary<string, RevisionAdoptedBody> _adoptions = [];
    private readonly List<ReviewEntry> _entries = [];
    private readonly List<ServedAnswer> _answers = [];
    private readonly Dictionary<string, MeasurementBody> _measured = [];
    private readonly List<ReviewFinding> _findings = [];
    private byte[] _hash = ChainHash.Start;

    /// <summary>The serial of the next entry.</summary>
    public long Next { get; private set; } = 1041;

    /// <summary>How many seconds after the instant the next entry is.</summary>
    public double Seconds { get; set; } = -600;

    public string Client { get; set; } = "cell-a";

    public string? Tag { get; set; }

    public List<string> Summary { get; } = [];

    public long LeftOut { get; set; }

    public ReviewQuestion Question { get; set; } = new() { At = At };

    public Evidence Evidence { get; set; } = new(null, null, new(1041, 1050, 4, 1, 3, 8, 0, 1, [], 0, null));

    public IReadOnlyDictionary<string, MeasurementBody> Standing => _measured;

    /// <summary>Puts a demo fixture's revision into force, before the window.</summary>
    public RevisionAdoptedBody Adopt(string fixtures, string fixture, int number, string by = "Setter 2", string why = "touched anew after the bed was cleaned")
    {
        var reading = RevisionReader.Read(File.ReadAllBytes(Path.Combine(fixtures, fixture, $"r{number:0000}.json")), "r", fixture, number);
        reading.Revision?.Prepare();
        var revision = _revisions[fixture] = reading.Revision!;
        using var content = JsonDocument.Parse(revision.Content);
        return _adoptions[fixture] = new RevisionAdoptedBody
        {
            Serial = 200 + _adoptions.Count, At = EntryTime.Text(At.AddDays(-3)), Fixture = fixture, Revision = number, Digest = revision.Digest, By = by,
            Why = why, Content = content.RootElement.Clone(),
        };
    }

    /// <summary>Adds an entry; its serial, instant and client are set here.</summary>
    public T Add<T>(T body, bool readable = true, string? kind = null)
        where T : EntryBody
    {
        (body.Serial, body.At) = (Next++, EntryTime.Text(At.AddSeconds(Seconds)));
        body.Client ??= body is ServiceStartedBody or ServiceStoppedBody or ClockStepBody or SealBody or UncleanStopBody ? null : Client;
        body.Tag ??= Tag;
        var bytes = new ArrayBufferWriter<byte>();
        using (var writer = new Utf8JsonWriter(bytes))
        {
            BodyJson.Write(writer, body);
        }

        _hash = ChainHash.Of(_hash, bytes.WrittenSpan);
        _entries.Add(
            new(
                new(
                    body.Serial, body.At, kind ?? body.Kind, body.Fixture, body.Revision, body.Client, body.Tag, Encoding.UTF8.GetString(bytes.WrittenSpan),
                    _hash), readable ? body : null));
        return body;
    }

    public MeasurementBody Measure(string fixture, double mm, string? lot = "A1077", string gauge = "bench-2") => _measured[fixture] = Add(new MeasurementBody
    {
        Fixture = fixture, Diameter = mm / 1000, Readings = [mm / 1000, (mm + 0.02) / 1000], Spread = 0.00002, Gauge = gauge, Lot = lot, FreshFor = 28800,
        Client = "gauge-bench",
    });

    public EmptiedBody Empty(string fixture)
    {
        _measured.Remove(fixture);
        return Add(new EmptiedBody { Fixture = fixture });
    }

    /// <summary>An answer; without a stated diameter it uses the current measurement.</summary>
    public ServedAnswer Answer(string fixture, double? mm = null, string purpose = "pick", bool first = false)
    {
        var revision = _revisions[fixture];
        var measured = mm is null ? _measured[fixture] : null;
        var diameter = measured?.Diameter ?? (mm!.Value / 1000);
        Assert.Equal(SeatFault.None, SeatSolver.TryClear(revision.Nest, diameter / 2, revision.StandOffPickMetres, out var seat));
        var (shift, taught) = (revision.Frame.ToBase(seat.Centre - revision.TaughtCentre), revision.TaughtOrigin);
        var answer = Add(new AnswerBody
        {
            Fixture = fixture, Revision = revision.Number, Digest = revision.Digest, Purpose = purpose, Nest = [0, 0], Diameter = diameter,
            Measurement = measured?.Serial,
            Age = measured is null ? null : 41.5, First = first, StandOff = revision.StandOffPickMetres,
            Position = [taught.PositionMetres.X + shift.X, taught.PositionMetres.Y + shift.Y, taught.PositionMetres.Z + shift.Z],
            Orientation = [1, 0, 0, 0], ShiftBase = [shift.X, shift.Y, shift.Z], ShiftOrigin = [shift.X, shift.Y, shift.Z],
            Uncertainty = new() { Along = 0.000112, Across = 0.00006, AlongWorst = 0.000187 },
        });
        var before = _answers.LastOrDefault(a => a.Answer.Fixture == fixture && a.Answer.Purpose == purpose)?.Answer;
        _answers.Add(new()
        {
            Answer = answer, Measurement = measured, Before = before, Follows = true,
            Change = before is null ? null : [.. answer.ShiftBase.Zip(before.ShiftBase, (a, b) => a - b)],
        });
        return _answers[^1];
    }

    public ConfirmationBody Confirm(ServedAnswer answer)
    {
        var body = Add(
            new ConfirmationBody
            {
                Fixture = answer.Answer.Fixture, Confirms = answer.Answer.Serial, Purpose = answer.Answer.Purpose, ShiftBase = answer.Answer.ShiftBase,
                ReadBack = new Dictionary<string, string> { ["bx"] = "0.000123" },
            });
        Change(answer, a => a with { ConfirmedBy = body.Serial });
        return body;
    }

    public RefusalBody Refuse(string fixture, string reason, string text, ServedAnswer? misread = null)
    {
        var body = Add(
            new RefusalBody
            {
                Fixture = fixture, Asked = misread is null ? "locate" : "confirm", Reason = reason, Number = 1, Text = text, Confirms = misread?.Answer.Serial,
            });
        if (misread is not null)
        {
            Change(misread, a => a with { Misread = [.. a.Misread, body] });
        }

        return body;
    }

    public void Change(ServedAnswer answer, Func<ServedAnswer, ServedAnswer> change)
    {
        var index = _answers.FindIndex(a => a.Answer.Serial == answer.Answer.Serial);
        _answers[index] = change(_answers[index]);
    }

    public void Find(FindingRule rule, string? fixture, string what, string why, string next, params long[] serials) =>
        _findings.Add(new(rule, serials, fixture, what, why, next));

    public Review Make(params FixtureThen[] fixtures) => new()
    {
        Ledger = "5f0c9a52-8a5e-4f2e-9d0b-6a8f7c1b2d3e", HeadSerial = 88123, HeadHash = Convert.ToHexStringLower(_hash), Question = Question, At = At,
        Then = Question.Serial ?? _entries.LastOrDefault(e => e.Body is null || e.At <= At)?.Serial ?? 0, Entries = [.. _entries], LeftOut = LeftOut,
        Adoptions = [.. _adoptions.Values], Fixtures = fixtures, Answers = [.. _answers], Evidence = Evidence, Findings = [.. _findings.OrderBy(f => f.Rule)],
        Summary = [.. Summary],
    };

    /// <summary>The state of a fixture, from the entries added up to the instant.</summary>
    public FixtureThen Then(string fixture, RecheckBody? missed = null, params StandingHold[] holds) => new()
    {
        Fixture = fixture, Adopted = _adoptions.GetValueOrDefault(fixture), Measurement = _measured.GetValueOrDefault(fixture),
        NoMeasurement = _measured.ContainsKey(fixture) ? null : "the nests were emptied after it",
        Missed = missed, Holds = holds, LastAnswer = _answers.Select(a => a.Answer).LastOrDefault(a => a.Fixture == fixture && EntryTime.Parse(a.At) <= At),
    };
}
