using System.Text;
using System.Text.Json;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Replaying;
using Stockseat.Answers.Roll;
using Stockseat.Answers.Snapshots;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Reading;

/// <summary>
/// The entries that what holds comes from, as their bodies stand in the ledger. Told every entry in its order, it keeps those that may matter still; who
/// writes, verifies and replays snapshots makes them by this, so that all come to the same bytes.
/// </summary>
public sealed class CarriedEntries
{
    /// <summary>So many are kept before those that matter no more are left out.</summary>
    private const int Most = 4096;

    private readonly Func<IAdoption, Revision?>? _read;
    private readonly AdoptedRevisions _revisions = new();
    private readonly List<Kept> _kept = [];

    /// <summary>Measurements come often, and of a fixture the newest alone can matter.</summary>
    private readonly Dictionary<string, Kept> _measured = new(StringComparer.Ordinal);

    /// <summary>So do answers: of a fixture the newest for a pick, for a place and for a pick of a lot can matter.</summary>
    private readonly NewestAnswers _answers = new();

    /// <param name="read">Reads the revision that an entry adopts; null: one that does not read back to its digest is an exception.</param>
    public CarriedEntries(Func<IAdoption, Revision?>? read = null) => _read = read;

    /// <summary>How many entries came since the newest snapshot, or since the ledger began.</summary>
    public long Since { get; private set; }

    /// <summary>How many bytes their bodies have.</summary>
    public long BytesSince { get; private set; }

    /// <summary>How many bytes that snapshot, or that beginning, carries.</summary>
    public long BytesBefore { get; private set; }

    /// <summary>Adds the next entry.</summary>
    public void Add(in EntryBytes row)
    {
        if (row.Kind.SequenceEqual("answer"u8))
        {
            Count(row.Body.Length); // the many
            _answers.Add(row.Serial, row.Fixture, row.Body);
        }
        else
        {
            Add(row.Serial, Encoding.UTF8.GetString(row.Kind), row.HasFixture ? Encoding.UTF8.GetString(row.Fixture) : null, row.Body);
        }
    }

    /// <summary>Adds the next entry.</summary>
    /// <param name="serial">Its serial.</param>
    /// <param name="kind">Its kind.</param>
    /// <param name="fixture">Its fixture; null: of none.</param>
    /// <param name="body">Its body.</param>
    public void Add(long serial, string kind, string? fixture, ReadOnlySpan<byte> body)
    {
        switch (kind)
        {
            case Kinds.Snapshot or Kinds.RolledOver:
                Begin(kind, body);
                return;
            case Kinds.Answer:
                _answers.Add(serial, Encoding.UTF8.GetBytes(fixture ?? ""), body);
                break;
            case Kinds.Seal:
                return; // Else seals and snapshots would ask for each other.
            case Kinds.Measurement when fixture is not null:
                _measured[fixture] = new(serial, kind, Bytes(kind, body));
                break;
            case Kinds.Refusal when body.IndexOf("\"asked\":\"measured\""u8) < 0:
                break;
            default:
                if (RegisteredVerbs.Table.FindKind(kind)?.MayStand == true)
                {
                    _kept.Add(new(serial, kind, Bytes(kind, body)));
                }

                break;
        }

        Count(body.Length);
        if (_kept.Count > Most)
        {
            Choose();
        }
    }

    /// <summary>Adds an entry that an index found; others before it were left out, since they can't matter.</summary>
    internal void Add(EntryRow row) => Add(row.Serial, row.Kind, row.Fixture, Encoding.UTF8.GetBytes(row.Body));

    /// <summary>Says that more entries came than were added.</summary>
    internal void HasMany() => (Since, BytesSince) = (long.MaxValue, long.MaxValue);

    /// <summary>Says that what was chosen last was written, or was too long to be: the next one is due when as much came again.</summary>
    /// <param name="bytes">How long it is.</param>
    internal void Written(long bytes) => (Since, BytesSince, BytesBefore) = (0, 0, bytes);

    /// <summary>Their bodies, in order.</summary>
    /// <exception cref="JsonException">One is none that this version knows.</exception>
    internal IEnumerable<EntryBody> Bodies() => InOrder().Select(k => k.Body);

    /// <summary>What they make.</summary>
    /// <param name="begins">The first entry of the ledger.</param>
    /// <exception cref="JsonException">One is none that this version knows.</exception>
    /// <exception cref="InvalidDataException">The content of a revision does not read back to its digest.</exception>
    public Situation Situation(long begins) => Applying.Of(Bodies(), begins, _read);

    /// <summary>Leaves out what holds no more.</summary>
    /// <param name="situation">What holds, where that is known.</param>
    /// <returns>How many bytes what is left has.</returns>
    /// <exception cref="JsonException">One is none that this version knows.</exception>
    internal long Choose(Situation? situation = null)
    {
        var all = InOrder();
        var bodies = all.ConvertAll(k => k.Body);
        situation ??= Applying.Of(bodies, 1, _read ?? _revisions.Read);
        var chosen = Carrying.Of(bodies, situation).Select(b => b.Serial).ToHashSet();
        _kept.Clear();
        _measured.Clear();
        _answers.Clear();
        _kept.AddRange(all.Where(k => chosen.Contains(k.Serial)));
        return _kept.Sum(k => (long)k.Bytes.Length);
    }

    /// <summary>What was chosen last, as a snapshot carries it.</summary>
    internal IReadOnlyList<JsonElement> Chosen() => [.. _kept.Select(k => k.Element)];

    /// <summary>What it carries stands for all before it; of one that can't be read those before are kept, and whoever verifies says so.</summary>
    private void Begin(string kind, ReadOnlySpan<byte> body)
    {
        if (TryRead(kind, body) is not { } carried)
        {
            Count(body.Length);
            return;
        }

        _kept.Clear();
        _measured.Clear();
        _answers.Clear();
        (Since, BytesSince, BytesBefore) = (0, 0, body.Length);
        _kept.AddRange(carried);
    }

    private static List<Kept>? TryRead(string kind, ReadOnlySpan<byte> body)
    {
        try
        {
            return BodyJson.Read(kind, body) switch
            {
                SnapshotBody b => Of(b.Carried),
                RolledOverBody { IsEnd: false } b => Of(b.Carried ?? []),
                _ => null,
            };
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static List<Kept> Of(IReadOnlyList<JsonElement> carried) =>
        [.. carried.Select(c => new Kept(CarriedBody.SerialOf(c), CarriedBody.KindOf(c)!, Encoding.UTF8.GetBytes(c.GetRawText())))];

    private void Count(int bytes)
    {
        if (Since < long.MaxValue)
        {
            (Since, BytesSince) = (Since + 1, BytesSince + bytes);
        }
    }

    private static byte[] Bytes(string kind, ReadOnlySpan<byte> body) => body.Length > BodyJson.LongestOf(kind) ? [] : body.ToArray(); // Reading it says why.

    private List<Kept> InOrder() => [.. _kept.Concat(_measured.Values).Concat(_answers.All.Select(a => new Kept(a.Serial, Kinds.Answer, a.Bytes))).OrderBy(k => k.Serial)];

    private sealed record Kept(long Serial, string Kind, byte[] Bytes)
    {
        private EntryBody? _body;
        private JsonElement? _element;

        public EntryBody Body => _body ??= BodyJson.Read(Kind, Bytes) ?? throw new JsonException($"entry {Serial} is of kind {Kind}, which is not known here");

        public JsonElement Element => _element ??= JsonElement.Parse(Bytes);
    }
}
