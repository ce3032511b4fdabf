using System.Buffers;
using System.Text;
using System.Text.Json;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Answers.Tests.Support;
using Stockseat.Answers.Tests.Verbs.Nothing;
using Stockseat.Answers.Verbs;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Tests.Verbs;

/// <summary>What a verb has to bring. Checked for the table of this version and for one more verb, which does nothing.</summary>
public sealed class VerbTableTests
{
    private static readonly VerbTable Table = new([.. RegisteredVerbs.Table.Verbs, new NothingVerb()], RegisteredVerbs.Table.Unasked);

    private readonly Bench _bench = Bench.Serving(VerbExample.File);

    public static TheoryData<string> Names => [.. Making.Select(v => v.Name)];

    /// <summary>The verbs that make entries.</summary>
    private static IEnumerable<Verb> Making => Table.Verbs.Where(v => v.Kind is not null);

    public static TheoryData<string> KindNames => [.. Table.Kinds.Select(k => k.Name)];

    [Fact]
    public void Every_verb_has_an_example_and_every_kind_is_known()
    {
        Assert.Equal(Making.Select(v => v.Name).Order(StringComparer.Ordinal), VerbExample.All.Keys.Order(StringComparer.Ordinal));
        Assert.Equal(
            typeof(Kinds).GetFields().Select(f => (string)f.GetRawConstantValue()!).Order(StringComparer.Ordinal),
            RegisteredVerbs.Table.Kinds.Select(k => k.Name).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Two_verbs_or_two_kinds_of_the_same_name_are_refused()
    {
        Assert.Throws<ArgumentException>(() => new VerbTable([new NothingVerb(), new NothingVerb()], []));
        Assert.Throws<ArgumentException>(() => new VerbTable([new NothingVerb()], [new NothingKind()]));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void An_ask_leads_to_its_entry_or_to_its_refusal_and_both_name_the_client(string name)
    {
        var ask = Ask(name);

        var (entry, refusal) = (Decide(ask), Decide(Denied(ask)));

        Assert.Equal((name, Table.Find(name)!.Kind!.Name), (ask.Verb, entry.Kind));
        Assert.Equal((name, (int)Reason.NotPermitted), ((RefusalBody)refusal is var r ? r.Asked : "", ((RefusalBody)refusal).Number));
        Assert.Equal((ask.Caller, ask.Caller), (Caller.Of(entry), Caller.Of(refusal)));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void An_entry_and_a_refusal_turn_back_into_asks_that_lead_to_the_same(string name)
    {
        var ask = Ask(name);
        var (entry, refusal) = (Again(Decide(ask)), Again(Decide(Denied(ask))));

        Assert.Equal(Text(refusal), Text(Decide(Table.AskOf(refusal)!)));
        if (VerbExample.All[name].HoldsItsAsk)
        {
            Assert.Equal(Text(entry), Text(Decide(Table.AskOf(entry)!)));
        }
        else
        {
            Assert.Null(Table.AskOf(entry));
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void A_repeated_ask_is_recognised_as_the_same_and_another_verb_s_ask_is_not(string name)
    {
        var ask = Ask(name);
        var (entry, refusal) = (Decide(ask), Decide(Denied(ask)));
        var other = Ask(name == "emptied" ? "hold" : "emptied");

        Assert.Equal((true, true), (Table.IsSame(ask, entry), Table.IsSame(ask, refusal)));
        Assert.Equal((false, false), (Table.IsSame(other, entry), Table.IsSame(other, refusal)));
        entry.Serial = _bench.Entries.Count + 1;
        var after = Table.Apply(_bench.Situation, entry, Read);
        after = name == "roll" ? after.BeginningWith(entry.Serial + 1) : after;
        Assert.Null(Table.Lapsed(entry, new(after, Decide(ask), _ => false)));
        Assert.Null(Table.Lapsed(refusal, new(_bench.Situation, refusal, _ => false)));
        Assert.EndsWith($" {entry.Serial}", Table.Called(entry), StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void An_entry_is_applied_and_carried_as_long_as_it_counts(string name)
    {
        var (ask, example) = (Ask(name), VerbExample.All[name]);
        var before = _bench.Situation;
        var entry = Decide(ask);
        (entry.Serial, entry.At) = (_bench.Entries.Count + 1, EntryTime.Text(_bench.Now));

        var after = Table.Apply(before, entry, Read);

        Assert.Equal(example.Changes, !ReferenceEquals(before, after));
        var newest = new NewestEntries([.. _bench.Entries, entry], Table);
        var kind = Table.KindOf(entry);
        var carried = kind.Stands(entry, after, newest) || kind.NewestOf(entry, Table).Any(of => ReferenceEquals(newest.Find(of, entry.Fixture), entry));
        Assert.Equal(example.IsCarried, carried);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void A_body_is_read_and_written_byte_for_byte_within_its_bounds(string name)
    {
        var entry = Decide(Ask(name));
        var kind = Table.KindOf(entry);

        Assert.Equal(Text(entry), Text(Again(entry)));
        Assert.Contains("bytes; a body may have at most", Assert.Throws<JsonException>(() => Table.Read(kind.Name, new byte[kind.Longest + 1])).Message,
            StringComparison.Ordinal);
        var odd = entry with { };
        odd.At = "yesterday";
        Assert.Contains("'yesterday', which is not an instant", Assert.Throws<JsonException>(() => Table.Read(kind.Name, Bytes(odd))).Message,
            StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(KindNames))]
    public void Every_kind_has_bounds_and_reads_no_body_of_another_kind(string name)
    {
        var kind = Table.FindKind(name)!;

        Assert.Equal(name is Kinds.RolledOver or Kinds.Snapshot ? 64 << 20 : 4 << 20, kind.Longest);
        Assert.Throws<JsonException>(() => Table.Read(name, "[]"u8));
    }

    [Fact]
    public void An_unknown_verb_is_not_found()
    {
        Assert.Null(RegisteredVerbs.Table.Find("nothing"));
        Assert.Throws<ArgumentOutOfRangeException>(() => RegisteredVerbs.Table.Decide(Ask("nothing"), _bench.Situation, _bench.Now, _ => null));
    }

    private Ask Ask(string name) => VerbExample.All[name].Ask(_bench);

    private static Ask Denied(Ask ask) => ask with { Denied = Refusal.Of(Reason.NotPermitted, "no") };

    private EntryBody Decide(Ask ask)
    {
        var body = Table.Decide(ask, _bench.Situation, _bench.Now, serial => _bench.Entries.Find(e => e.Serial == serial) as ServedBody);
        (body.Serial, body.At) = (1, EntryTime.Text(_bench.Now));
        return body;
    }

    private static Revision? Read(IAdoption adoption) => RevisionReader.FromContent(Encoding.UTF8.GetBytes(adoption.Content.GetRawText()), "test").Revision;

    private static EntryBody Again(EntryBody body) => Table.Read(body.Kind, Bytes(body))!;

    private static string Text(EntryBody body) => Encoding.UTF8.GetString(Bytes(body));

    private static byte[] Bytes(EntryBody body)
    {
        var buffer = new ArrayBufferWriter<byte>();
        using var writer = new Utf8JsonWriter(buffer);
        Table.KindOf(body).Write(writer, body);
        writer.Flush();
        return buffer.WrittenSpan.ToArray();
    }
}
