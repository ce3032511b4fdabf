using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Showing;

namespace Stockseat.Audit.Reviewing.Facts;

/// <summary>What a review knows, in the order of serials, so that each rule can use it.</summary>
internal sealed class ReviewFacts
{
    /// <summary>A picometre: a difference of exactly the limit may be rounded up or down.</summary>
    public const double Rounding = 1e-12;

    private readonly Dictionary<long, DateTimeOffset> _instants;
    private readonly EmptiedBody[] _emptied;

    public ReviewFacts(Review review, Display display)
    {
        Review = review;
        Text = new(review.At, display);
        Moves = new(review);
        Bodies = [.. review.Entries.Select(e => e.Body).OfType<EntryBody>().OrderBy(b => b.Serial)];
        Served = [.. review.Answers.OrderBy(a => a.Answer.Serial)];
        Answers = InOrder(
            review.Answers.SelectMany(a => new[] { a.Before, a.Answer }).Concat(review.Fixtures.Select(f => f.LastAnswer)).Concat(Bodies.OfType<AnswerBody>()));
        Measurements = InOrder(
            review.Answers.Select(a => a.Measurement).Concat(review.Fixtures.Select(f => f.Measurement)).Concat(Bodies.OfType<MeasurementBody>()));
        OfLots = InOrder(Measurements.Concat(review.Older.Select(e => e.Body).OfType<MeasurementBody>()));
        _emptied = InOrder(
            review.Fixtures.Select(f => f.Emptied).Concat(review.Answers.SelectMany(a => a.Between ?? []).OfType<EmptiedBody>())
                .Concat(Bodies.OfType<EmptiedBody>()));
        _instants = Bodies.Concat(Answers).Concat(Measurements).Concat(_emptied).Concat(review.Adoptions).DistinctBy(b => b.Serial)
            .ToDictionary(b => b.Serial, At);
        foreach (var entry in review.Entries)
        {
            if (EntryTime.TryParse(entry.Row.At, out var at))
            {
                _instants.TryAdd(entry.Serial, at);
            }
        }
    }

    public Review Review { get; }

    /// <summary>How many of the entries have no body that can be read.</summary>
    public int Unread => Review.Entries.Count - Bodies.Count;

    /// <summary>How instants and lengths are written.</summary>
    public FindingText Text { get; }

    /// <summary>How far apart the robot is sent for two diameters, or by two revisions.</summary>
    public StockMoves Moves { get; }

    /// <summary>The bodies of the window, in the order of their serials.</summary>
    public IReadOnlyList<EntryBody> Bodies { get; }

    /// <summary>The answers of the window, in order.</summary>
    public IReadOnlyList<ServedAnswer> Served { get; }

    /// <summary>Every answer that is known, also from before the window.</summary>
    public IReadOnlyList<AnswerBody> Answers { get; }

    /// <summary>Every measurement that is known, also from before the window.</summary>
    public IReadOnlyList<MeasurementBody> Measurements { get; }

    /// <summary>The last earlier measurements of the same lots; whether they were still valid is not known here.</summary>
    public IReadOnlyList<MeasurementBody> OfLots { get; }

    public static DateTimeOffset At(EntryBody body) => EntryTime.Parse(body.At);

    /// <summary>Whether an entry makes the valid measurement void; somebody who may not push can't do that.</summary>
    public static bool Voids(EntryBody body) => body is EmptiedBody or RefusalBody { Asked: "measured", Number: not (int)Reason.NotPermitted };

    /// <summary>Of one kind and fixture.</summary>
    public IEnumerable<T> Of<T>(string? fixture)
        where T : EntryBody => Bodies.OfType<T>().Where(b => b.Fixture == fixture);

    /// <summary>An answer by its serial; null when it is not known here.</summary>
    public AnswerBody? Answer(long serial) => Answers.FirstOrDefault(a => a.Serial == serial);

    /// <summary>Whether an entry is not after the instant, by its serial, since the clock may have been set.</summary>
    public bool IsBefore(EntryBody body) => body.Serial <= Review.Then;

    /// <summary>Whether all entries from a serial on, to the window's end, are shown.</summary>
    public bool Shows(long serial) => Review.Entries.Count > 0 && Review.Entries.Min(e => e.Serial) <= serial;

    /// <summary>Entries of a fixture that lie between two serials.</summary>
    public IEnumerable<EntryBody> Between(string? fixture, long after, long before) =>
        Bodies.Where(b => b.Fixture == fixture && b.Serial > after && b.Serial < before);

    /// <summary>
    /// The entries that say that a fixture's nests were emptied or refilled, between two serials, in order; also from before the window, as far as known.
    /// </summary>
    public IEnumerable<EmptiedBody> Emptied(string? fixture, long after, long before) =>
        _emptied.Where(e => e.Fixture == fixture && e.Serial > after && e.Serial < before);

    /// <summary>The measurement that was valid before an entry; null when there was none, or when it is not known here.</summary>
    public MeasurementBody? Standing(string? fixture, long before) =>
        Measurements.LastOrDefault(m => m.Fixture == fixture && m.Serial < before) is { } last
            && !Between(fixture, last.Serial, before).Any(Voids) && !Emptied(fixture, last.Serial, before).Any() ? last : null;

    /// <summary>How far a finding's nearest entry is from the instant.</summary>
    public TimeSpan Distance(ReviewFinding finding) => Nearest(finding) is { } at ? (at - Review.At).Duration() : TimeSpan.MaxValue;

    /// <summary>The instant of a finding's entry that is nearest to the reviewed instant; null when none is known.</summary>
    public DateTimeOffset? Nearest(ReviewFinding finding) =>
        finding.Serials.Where(_instants.ContainsKey).Select(s => (DateTimeOffset?)_instants[s]).MinBy(at => (at!.Value - Review.At).Duration());

    /// <summary>Whether the last answer of a fixture before the instant, its measurement or its revision is among a finding's entries.</summary>
    public bool IsOnLastAnswer(ReviewFinding finding) => Review.Fixtures.Select(f => f.LastAnswer).OfType<AnswerBody>().Any(last =>
        finding.Serials.Contains(last.Serial) || (last.Measurement is { } measured && finding.Serials.Contains(measured))
        || (Moves.Adoption(last) is { } adoption && finding.Serials.Contains(adoption.Serial)));

    private static T[] InOrder<T>(IEnumerable<T?> bodies)
        where T : EntryBody => [.. bodies.OfType<T>().DistinctBy(b => b.Serial).OrderBy(b => b.Serial)];
}
