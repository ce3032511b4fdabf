using Stockseat.Answers.Adopt;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Reviewing;
using Stockseat.Audit.Showing;
using Stockseat.V1;

namespace Stockseat.Cli.Client;

/// <summary>A review as the service sent it.</summary>
internal sealed class ReviewReading
{
    private readonly ReviewResponse _told;
    private readonly Dictionary<long, ReviewEntry> _entries;

    private ReviewReading(ReviewResponse told)
    {
        _told = told; // a body may be of a version that the service knows and this program does not
        _entries = told.Entries.Concat(told.Older).Select(EntryReading.Of).Select(ReviewEntry.Of).DistinctBy(e => e.Serial).ToDictionary(e => e.Serial);
    }

    /// <summary>The review.</summary>
    /// <param name="question">What was asked.</param>
    /// <param name="display">The unit and the zone of its words here; those of the service may differ.</param>
    /// <param name="told">What came back.</param>
    public static Review Of(ReviewQuestion question, Display display, ReviewResponse told) =>
        ReviewFindings.With(new ReviewReading(told).Make(question), display);

    private Review Make(ReviewQuestion question) => new()
    {
        Ledger = _told.Ledger.Length == 0 ? null : _told.Ledger,
        HeadSerial = _told.HeadSerial,
        HeadHash = _told.HeadHash,
        Question = question,
        At = EntryTime.Parse(_told.At),
        Then = _told.Then,
        Entries = [.. _told.Entries.Select(e => _entries[e.Serial])],
        LeftOut = _told.LeftOut,
        Older = [.. _told.Older.Select(e => _entries[e.Serial])],
        Adoptions = [.. _told.Adoptions.Select(Find<RevisionAdoptedBody>).OfType<RevisionAdoptedBody>()],
        Fixtures = [.. _told.Fixtures.Select(Of)],
        Answers = [.. _told.Answers.Select(Of).OfType<Audit.Reviewing.Results.ServedAnswer>()],
        Evidence = new(
            _told.ChainFault.Length == 0 ? null : _told.ChainFault, _told.Whole is null ? null : VerificationReading.Of(_told.Whole),
            ReplayReading.Of(_told.Replay))
        {
            Plant = _told.PlantFault.Length == 0 ? null : _told.PlantFault,
        },
    };

    private Audit.Reviewing.Results.FixtureThen Of(V1.FixtureThen f) => new()
    {
        Fixture = f.Fixture,
        Adopted = Find<RevisionAdoptedBody>(f.Adopted),
        Holds = [.. f.Holds.Select(h => new StandingHold(h.By, h.Why, h.Serial, EntryTime.Parse(h.At)))],
        Measurement = Find<MeasurementBody>(f.Measurement),
        NoMeasurement = f.NoMeasurement.Length == 0 ? null : f.NoMeasurement,
        Missed = Find<RecheckBody>(f.Missed),
        Emptied = Find<EmptiedBody>(f.Emptied),
        LastAnswer = Find<AnswerBody>(f.LastAnswer),
        Load = f.Load.Length == 0 ? null : f.Load,
        LastConfirmedBy = f.LastConfirmedBy == 0 ? null : f.LastConfirmedBy,
        Unproven = [.. f.Unproven.Select(Lacks.Of)],
    };

    private Audit.Reviewing.Results.ServedAnswer? Of(V1.ServedAnswer a) => Find<AnswerBody>(a.Serial) is not { } answer ? null : new()
    {
        Answer = answer,
        Measurement = Find<MeasurementBody>(a.Measurement),
        Before = Find<AnswerBody>(a.Before),
        Between = [.. a.Between.Select(Find<EntryBody>).OfType<EntryBody>()],
        Change = a.ChangeMetres.Count == 0 ? null : [.. a.ChangeMetres],
        ConfirmedBy = a.ConfirmedBy == 0 ? null : a.ConfirmedBy,
        Misread = [.. a.Misread.Select(Find<RefusalBody>).OfType<RefusalBody>()],
        Follows = a.HasFollows ? a.Follows : null,
    };

    private T? Find<T>(long serial)
        where T : EntryBody => _entries.GetValueOrDefault(serial)?.Body as T;
}
