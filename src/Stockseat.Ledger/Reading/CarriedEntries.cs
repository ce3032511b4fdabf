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
/// The entries on which the situation rests, as their bodies are in the ledger. It gets every entry in order and keeps those that may still matter. Writing,
/// verifying and replaying snapshots all use this class, so all come to the same bytes.
/// </summary>
public sealed class CarriedEntries
{
    /// <summary>How many entries are kept before those that no longer matter are dropped.</summary>
    private const int Most = 4096;

    private readonly Func<IAdoption, Revision?>? _read;
    private readonly AdoptedRevisions _revisions = new();
    private readonly List<Kept> _kept = [];

    /// <summary>Measurements come often, and only the newest one of a fixture, and of each nest that was measured alone, can matter.</summary>
    private readonly Dictionary<(string Fixture, string Nest), Kept> _measured = [];

    /// <summary>So do answers: of a fixture the newest for a pick, for a place, for a pick of a lot and of a load can matter.</summary>
    private readonly NewestAnswers _answers = new();

    /// <param name="read">Reads the revision that an entry adopts; null: when its values do not give its digest, an exception is thrown.</param>
    public CarriedEntries(Func<IAdoption, Revision?>? read = null) => _read = read;

    /// <summary>How many entries came since the newest snapshot, or since the ledger began.</summary>
    public long Since { get; private set; }

    /// <summary>How many bytes their bodies have in all.</summary>
    public long BytesSince { get; private set; }

    /// <summary>How many bytes that snapshot, or the first entry of the ledger, carries.</summary>
    public long BytesBefore { get; private set; }

    /// <summary>Adds the next entry.</summary>
    public void Add(in EntryBytes row)
    {
        if (row.Kind.SequenceEqual("answer"u8))
        {
            Count(row.Body.Length); // Most entries are of this kind.
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
    /// <param name="fixture">Its fixture; null: it has none.</param>
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
                return; // Otherwise a seal would lead to a snapshot, and the snapshot to a seal.
            case Kinds.Measurement when fixture is not null:
                _measured[(fixture, NestOf(body))] = new(serial, kind, Bytes(kind, body));
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

    /// <summary>Adds an entry that was found by an index; the entries before it were skipped, since they can't matter.</summary>
    internal void Add(EntryRow row) => Add(row.Serial, row.Kind, row.Fixture, Encoding.UTF8.GetBytes(row.Body));

    /// <summary>Reports that more entries came than were added.</summary>
    internal void HasMany() => (Since, BytesSince) = (long.MaxValue, long.MaxValue);

    /// <summary>Reports that the last choice was written, or was too long to be written: the next snapshot is due when as much has come again.</summary>
    /// <param name="bytes">The length of that snapshot.</param>
    internal void Written(long bytes) => (Since, BytesSince, BytesBefore) = (0, 0, bytes);

    /// <summary>Their bodies, in order.</summary>
    /// <exception cref="JsonException">This version does not know one of them.</exception>
    internal IEnumerable<EntryBody> Bodies() => InOrder().Select(k => k.Body);

    /// <summary>The situation that they make.</summary>
    /// <param name="begins">The first entry of the ledger.</param>
    /// <exception cref="JsonException">This version does not know one of them.</exception>
    /// <exception cref="InvalidDataException">The values of a revision do not give its digest.</exception>
    public Situation Situation(long begins) => Applying.Of(Bodies(), begins, _read);

    /// <summary>Drops the entries that no longer count.</summary>
    /// <param name="situation">The situation, where it is known already.</param>
    /// <returns>How many bytes the remaining bodies have.</returns>
    /// <exception cref="JsonException">This version does not know one of them.</exception>
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

    /// <summary>The last choice, in the form in which a snapshot carries it.</summary>
    internal IReadOnlyList<JsonElement> Chosen() => [.. _kept.Select(k => k.Element)];

    /// <summary>The carried entries replace all entries before. When they can't be read, the entries before are kept, and a verification reports it.</summary>
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

    /// <summary>The nest that a body names, as its text; empty: none. In the text of a value, the quotes would be escaped.</summary>
    private static string NestOf(ReadOnlySpan<byte> body)
    {
        var name = "\"nest\":["u8;
        var at = body.IndexOf(name);
        return at < 0 ? "" : Encoding.UTF8.GetString(body[(at + name.Length)..(at + body[at..].IndexOf((byte)']'))]);
    }

    private void Count(int bytes)
    {
        if (Since < long.MaxValue)
        {
            (Since, BytesSince) = (Since + 1, BytesSince + bytes);
        }
    }

    /// <summary>A copy of a body; empty when it is too long, and reading it then gives the reason.</summary>
    private static byte[] Bytes(string kind, ReadOnlySpan<byte> body) => body.Length > BodyJson.LongestOf(kind) ? [] : body.ToArray();

    private List<Kept> InOrder() =>
        [.. _kept.Concat(_measured.Values).Concat(_answers.All.Select(a => new Kept(a.Serial, Kinds.Answer, a.Bytes))).OrderBy(k => k.Serial)];

    private sealed record Kept(long Serial, string Kind, byte[] Bytes)
    {
        private EntryBody? _body;
        private JsonElement? _element;

        public EntryBody Body => _body ??= BodyJson.Read(Kind, Bytes)
            ?? throw new JsonException($"entry {Serial} is of kind {Kind}, which this version does not know");

        public JsonElement Element => _element ??= JsonElement.Parse(Bytes);
    }
}
