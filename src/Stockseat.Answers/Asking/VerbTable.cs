using System.Collections.Frozen;
using System.Globalization;
using System.Text.Json;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Asking;

/// <summary>
/// The verbs and the kinds of entries, by name. Whatever has to be done with an ask or an entry is done by the verb or kind that it belongs to.
/// </summary>
public sealed class VerbTable
{
    private readonly FrozenDictionary<string, Verb> _verbs;
    private readonly FrozenDictionary<string, Verb> _byKind;
    private readonly FrozenDictionary<string, EntryKind> _kinds;

    /// <summary>Makes the table.</summary>
    /// <param name="verbs">The verbs; each comes with the kind of its entries.</param>
    /// <param name="unasked">The kinds of entries that nobody asks for.</param>
    public VerbTable(IReadOnlyList<Verb> verbs, IReadOnlyList<EntryKind> unasked)
    {
        (Verbs, Unasked, Kinds) = (verbs, unasked, [.. verbs.Select(v => v.Kind).OfType<EntryKind>(), .. unasked, new RefusalKind()]);
        _verbs = verbs.ToFrozenDictionary(v => v.Name, StringComparer.Ordinal);
        _byKind = verbs.Where(v => v.Kind is not null).ToFrozenDictionary(v => v.Kind!.Name, StringComparer.Ordinal);
        _kinds = Kinds.ToFrozenDictionary(k => k.Name, StringComparer.Ordinal);
    }

    /// <summary>All verbs.</summary>
    public IReadOnlyList<Verb> Verbs { get; }

    /// <summary>The kinds of entries that nobody asks for.</summary>
    public IReadOnlyList<EntryKind> Unasked { get; }

    /// <summary>All kinds of entries, including refusals.</summary>
    public IReadOnlyList<EntryKind> Kinds { get; }

    /// <summary>The verb of a name; null when there is none.</summary>
    public Verb? Find(string name) => _verbs.GetValueOrDefault(name);

    /// <summary>The verb of an ask.</summary>
    public Verb VerbOf(Ask ask) => Find(ask.Verb) ?? throw new ArgumentOutOfRangeException(nameof(ask), ask.Verb, "no such verb");

    /// <summary>The kind of an entry.</summary>
    public EntryKind KindOf(EntryBody body) =>
        FindKind(body.Kind) ?? throw new ArgumentOutOfRangeException(nameof(body), body.Kind, "no such kind of entry");

    /// <summary>The kind of a name; null when this version does not know it.</summary>
    public EntryKind? FindKind(string name) => _kinds.GetValueOrDefault(name);

    /// <summary>The verb that leads to entries of a kind; null when nobody asks for such entries.</summary>
    public Verb? VerbOfKind(string kind) => _byKind.GetValueOrDefault(kind);

    /// <summary>Decides an ask; the result is the entry, with who asked.</summary>
    public EntryBody Decide(Ask ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find)
    {
        var body = VerbOf(ask).Decide(ask, situation, at, find);
        if (body.Serial > 0)
        {
            return body; // It is in the ledger already.
        }

        body = body is RefusalBody refused ? refused.In(ask.Shown) : body;
        ask.Caller.WriteTo(body);
        body.Version = ask.Rules;
        return body;
    }

    /// <summary>The situation after an entry.</summary>
    public Situation Apply(Situation situation, EntryBody body, Func<IAdoption, Revision?> read) => KindOf(body).Apply(situation, body, this, read);

    /// <summary>Reads a body of a kind; null when this version does not know the kind.</summary>
    /// <exception cref="JsonException">It is not such a body, it is too long, or it holds something that the service never writes.</exception>
    public EntryBody? Read(string kind, ReadOnlySpan<byte> body)
    {
        if (TooLong(kind, body.Length) is { } tooLong)
        {
            throw new JsonException(tooLong);
        }

        try
        {
            if (FindKind(kind) is not { } known || known.Read(body) is not { } read)
            {
                return null;
            }

            return (BodyChecks.At(read) ?? known.Fault(read, this)) is { } fault ? throw new JsonException(fault) : read;
        }
        catch (Exception e) when (e is FormatException or InvalidOperationException or NotSupportedException)
        {
            throw new JsonException(e.Message, e); // For example an escaped half of a surrogate pair.
        }
    }

    /// <summary>
    /// Why a body of this length is not read, in words; null when it may be read. A reader of rows gets an empty body in place of one that is too long.
    /// </summary>
    public string? TooLong(string kind, long bytes)
    {
        var longest = FindKind(kind)?.Longest ?? EntryKind.UsualLongest;
        return bytes == 0 ? string.Create(CultureInfo.InvariantCulture, $"it is empty, or has more than the {longest} bytes that a body may have")
            : bytes > longest ? string.Create(CultureInfo.InvariantCulture, $"it has {bytes} bytes; a body may have at most {longest}")
            : null;
    }

    /// <summary>The ask that led to an entry, rebuilt from the body; null: the body does not hold all of it, or nobody asked for the entry.</summary>
    public Ask? AskOf(EntryBody body) =>
        (body is RefusalBody refusal ? AskOf(refusal) : VerbOfKind(body.Kind)?.AskOfEntry(body)) is { } ask ? ask with { Rules = body.Version } : null;

    /// <summary>Whether an ask is the one that led to an entry, as far as the body says.</summary>
    public bool IsSame(Ask ask, EntryBody first) => first is RefusalBody refusal
        ? refusal.Asked == ask.Verb && (ask.Fixture.Length == 0 || refusal.Fixture == ask.Fixture) && VerbOf(ask).IsSameRefused(ask, refusal)
        : VerbOf(ask).IsSame(ask, first);

    /// <summary>Why the outcome of a request id does not hold any more; null while it does.</summary>
    public string? Lapsed(EntryBody first, DecidedAfresh now) =>
        first is RefusalBody refusal ? Lapsed(refusal, now) : OutcomeOf(first).Lapsed(first, now);

    /// <summary>The word for an outcome in the text of a refusal.</summary>
    public string Called(EntryBody first) =>
        first is RefusalBody refusal ? $"refusal {refusal.Serial} ({refusal.Reason})" : $"{OutcomeOf(first).Outcome} {first.Serial}";

    private Ask? AskOf(RefusalBody body) => Find(body.Asked) is not { } verb || verb.AskOfRefusal(body) is not { } ask ? null
        : (body.Number == (int)Reason.NotPermitted && !verb.IsDeniedByContent(body)) || body.Limits?.ContainsKey(Refusal.Required) == true
            ? ask with { Denied = body.Refusal }
        : ask;

    private string? Lapsed(RefusalBody first, DecidedAfresh now) =>
        now.Body is not RefusalBody { Number: var number } ? "it would not be refused now"
        : number != first.Number ? "it would be refused for another reason now"
        : Find(first.Asked)?.LapsedRefusal(first, now);

    private Verb OutcomeOf(EntryBody first) =>
        VerbOfKind(first.Kind) ?? throw new ArgumentOutOfRangeException(nameof(first), first.Kind, "no ask leads to such an entry");
}
