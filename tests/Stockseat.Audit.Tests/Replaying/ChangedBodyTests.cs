using System.Text;
using System.Text.Json.Nodes;
using Stockseat.Audit.Replaying;
using Stockseat.Ledger.Tests.Support;

namespace Stockseat.Audit.Tests.Replaying;

/// <summary>The chain is right, but the bodies in it are not what was decided: only a replay can see that.</summary>
public sealed class ChangedBodyTests : IAsyncLifetime
{
    private static readonly Lazy<Task<(byte[] File, IReadOnlyList<string> Bodies)>> Made = new(Varied.Small);
    private byte[] _file = [];
    private IReadOnlyList<string> _bodies = [];

    public async ValueTask InitializeAsync() => (_file, _bodies) = await Made.Value;

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    [Fact]
    public void An_unchanged_ledger_comes_out_the_same()
    {
        using var copy = Copy(_bodies);

        Assert.Equal(0, Replays.Of(copy.Folder).ExitCode);
        Assert.True(copy.Verify().Whole);
    }

    [Theory]
    [InlineData("answer", "position", "[0.001,0.002,0.003]", "position[0]", "position[1]", "position[2]")]
    [InlineData("answer", "first", "false", "first")]
    [InlineData(
        "answer", "uncertainty", """{"along":0.0001,"across":0.0001,"alongWorst":0.0001,"acrossWorst":0.0001}""", "uncertainty.along", "uncertainty.across",
        "uncertainty.alongWorst", "uncertainty.acrossWorst")]
    [InlineData("answer", "more", "1", "more")]
    [InlineData("measurement", "diameter", "0.09", "diameter")]
    [InlineData("measurement", "spread", "0.0002", "spread")]
    [InlineData("confirmation", "shiftBase", "[0,0,0]", "shiftBase[1]")]
    [InlineData("confirmation", "other", "2", "other")]
    [InlineData("released", "left", "3", "left")]
    [InlineData("recheck", "passed", "false", "passed")]
    [InlineData("recheck", "miss", """{"along":0,"across":0,"outOfPlan":0}""", "miss.along")]
    [InlineData("held", "serial", "1", "serial")]
    public void A_changed_value_is_listed(string kind, string name, string value, params string[] fields)
    {
        var at = Index(b => b["kind"]!.GetValue<string>() == kind);
        using var copy = Copy(_bodies);
        copy.Rewrite(at + 1, LedgerCopy.With(_bodies[at], (name, JsonNode.Parse(value))));

        var found = Replays.Of(copy.Folder);

        var difference = found.Differences[0];
        Assert.Equal((at + 1, kind, 1), ((int)difference.Serial, difference.Kind, found.ExitCode));
        Assert.Equal(fields, difference.Fields.Select(f => f.Path));
        var was = JsonNode.Parse(_bodies[at])!;
        Assert.All(difference.Fields.Where(f => f.Recomputed.Length > 0), f => Assert.Equal(At(was, f.Path), f.Recomputed));
    }

    [Fact]
    public void A_refusal_with_another_reason_is_listed()
    {
        var at = Index(b => b["reason"]?.GetValue<string>() == "diameter-below-envelope");
        using var copy = Copy(_bodies);
        copy.Rewrite(at + 1, LedgerCopy.With(_bodies[at], ("reason", "diameter-above-envelope"), ("number", 11)));

        var difference = Assert.Single(Replays.Of(copy.Folder).Differences);

        Assert.Equal(
            [new("reason", "\"diameter-above-envelope\"", "\"diameter-below-envelope\""), new FieldDifference("number", "11", "10")], difference.Fields);
        Assert.Equal("2 values do not come out as recorded", difference.Text);
    }

    [Fact]
    public void A_refusal_of_what_was_answered_is_listed()
    {
        var at = Index(b => b["reason"]?.GetValue<string>() == "fixture-held");
        using var copy = Copy(_bodies);
        copy.Rewrite(at + 1, LedgerCopy.With(_bodies[at], ("reason", "fixture-unknown"), ("number", 1)));

        var difference = Assert.Single(Replays.Of(copy.Folder).Differences);

        Assert.Contains("\"fixture-withdrawn\"", difference.Fields.Select(f => f.Recomputed)); // the ledger knows it
    }

    [Fact]
    public void A_changed_measurement_shows_there_and_in_every_entry_that_depends_on_it()
    {
        var at = Index(b => b["kind"]!.GetValue<string>() == "measurement");
        using var copy = Copy(_bodies);
        copy.Rewrite(at + 1, LedgerCopy.With(_bodies[at], ("diameter", 0.0905)));

        var found = Replays.Of(copy.Folder);

        // A push that was refused because it is older than the measurement names the measurement, and does not depend on its diameter; a place above the raw
        // stock does, and does not name it.
        var rest = Enumerable.Range(0, _bodies.Count).Where(
            i => JsonNode.Parse(_bodies[i])! is var b && ((b["measurement"]?.GetValue<long>() == at + 1 && b["asked"]?.GetValue<string>() != "measured")
                || b["text"]?.GetValue<string>().Contains($"by measurement {at + 1};", StringComparison.Ordinal) == true))
            .Select(i => i + 1L).ToList();
        Assert.True(rest.Count > 1);
        Assert.Equal([at + 1, .. rest], found.Differences.Select(d => d.Serial));
        Assert.Contains("diameter", found.Differences[1].Fields.Select(f => f.Path));
        Assert.Equal(found.Answers + found.Refusals + found.Others, found.Same + found.Differences.Count);
    }

    [Fact]
    public void A_revision_that_does_not_read_back_is_listed_with_everything_that_depends_on_it()
    {
        var at = Index(b => b["kind"]!.GetValue<string>() == "revision-adopted");
        var next = Index(b => b["kind"]!.GetValue<string>() == "revision-adopted" && b["revision"]!.GetValue<int>() == 2);
        using var copy = Copy(_bodies);
        copy.Rewrite(at + 1, _bodies[at].Replace("0.06", "0.07", StringComparison.Ordinal));

        var found = Replays.Of(copy.Folder);

        Assert.Equal(("revision-adopted", at + 1L), (found.Differences[0].Kind, found.Differences[0].Serial));
        Assert.StartsWith("could not be computed: its content does not give its digest", found.Differences[0].Text, StringComparison.Ordinal);
        Assert.All(
            found.Differences.Skip(1), d =>
                Assert.Equal($"could not be computed: it depends on the revision of entry {at + 1}, whose values do not give its digest", d.Text));
        Assert.All(found.Differences, d => Assert.InRange(d.Serial, at + 1, next));
        var answers = Enumerable.Range(0, next).Where(i => _bodies[i].Contains("\"kind\":\"answer\"", StringComparison.Ordinal)).Select(i => i + 1L);
        Assert.Equal(answers, found.Differences.Where(d => d.Kind == "answer").Select(d => d.Serial));
    }

    [Fact]
    public void Bytes_that_say_the_same_in_another_form_are_listed()
    {
        var at = Index(b => b["kind"]!.GetValue<string>() == "emptied");
        using var copy = Copy(_bodies);
        copy.Rewrite(at + 1, _bodies[at].Replace("\"v\":2", "\"v\": 2", StringComparison.Ordinal));

        Assert.Equal("its values come out as recorded, but its bytes are written differently", Assert.Single(Replays.Of(copy.Folder).Differences).Text);
    }

    [Theory]
    [InlineData("\"v\":2", "\"v\":9", "has version 9; this program knows 1 to 2")]
    [InlineData("{", "", "has a body that can't be read")]
    public void An_entry_that_cant_be_read_ends_the_replay_with_its_serial(string old, string now, string said)
    {
        var at = Index(b => b["kind"]!.GetValue<string>() == "confirmation");
        using var copy = Copy(_bodies);
        copy.Rewrite(at + 1, _bodies[at].Replace(old, now, StringComparison.Ordinal));

        var found = Replays.Of(copy.Folder);

        Assert.Equal((at, 2), ((int)found.Last, found.ExitCode));
        Assert.Contains($"entry {at + 1} {said}", found.Unreadable, StringComparison.Ordinal);
        Assert.Equal(0, Replays.Of(copy.Folder, new() { Until = at }).ExitCode);
    }

    [Fact]
    public void A_broken_page_ends_the_replay_with_a_message()
    {
        const int Page = 4096;
        var bytes = _file.ToArray();
        var at = bytes.AsSpan().IndexOf(Encoding.UTF8.GetBytes(_bodies[60]));
        Assert.True(at > Page);
        bytes.AsSpan(at / Page * Page, Page).Fill(0xa5);
        using var copy = new LedgerCopy(bytes);

        var found = LedgerReplay.Run(copy.Folder, new() { Ranges = 1 }, CancellationToken.None);

        Assert.Equal(2, found.ExitCode);
        Assert.Contains("the file can't be read after entry", found.Unreadable, StringComparison.Ordinal);
    }

    [Fact]
    public void Only_the_asked_entries_are_replayed()
    {
        using var copy = Copy(_bodies);

        var found = Replays.Of(copy.Folder, new() { From = 40, Until = 60 });

        Assert.Equal((40, 60, 0), (found.First, found.Last, found.ExitCode));
    }

    [Fact]
    public void Entries_of_another_version_may_differ_by_a_little_and_no_more()
    {
        var start = LedgerCopy.With(_bodies[0], ("program", "0.0.9"));
        var at = _bodies.ToList().FindLastIndex(b => b.Contains("\"kind\":\"answer\"", StringComparison.Ordinal)); // nobody confirms it
        var position = JsonNode.Parse(_bodies[at])!["shiftBase"]!.AsArray().Select(n => n!.GetValue<double>()).ToArray();
        using var copy = Copy(_bodies);
        copy.Rewrite(1, start);
        copy.Rewrite(at + 1, LedgerCopy.With(_bodies[at], ("shiftBase", new JsonArray(position[0], position[1] + 5e-13, position[2]))));
        var refused = Index(b => b["reason"]?.GetValue<string>() == "diameter-below-envelope");
        copy.Rewrite(refused + 1, LedgerCopy.With(_bodies[refused], ("text", "in other words")));

        var near = Replays.Of(copy.Folder);
        copy.Rewrite(at + 1, LedgerCopy.With(_bodies[at], ("shiftBase", new JsonArray(position[0], position[1] + 3e-12, position[2]))));
        var far = Replays.Of(copy.Folder);
        copy.Rewrite(1, LedgerCopy.With(_bodies[0], ("program", LedgerReplay.Program)));
        var same = Replays.Of(copy.Folder);

        Assert.Equal((2, 0, 0), ((int)near.Within, near.Differences.Count, near.ExitCode));
        Assert.Equal("shiftBase[1]", Assert.Single(Assert.Single(far.Differences).Fields).Path);
        Assert.Equal([refused + 1L, at + 1L], same.Differences.Select(d => d.Serial));
    }

    [Fact]
    public void There_is_no_working_of_an_entry_that_does_not_exist()
    {
        using var copy = Copy(_bodies);

        Assert.Null(LedgerReplay.One(copy.Folder, _bodies.Count + 1));
        Assert.Null(LedgerReplay.One(copy.Folder, 0));
    }

    private static string At(JsonNode body, string path) => path.Replace("]", "", StringComparison.Ordinal).Split('.', '[')
        .Aggregate(body, (node, part) => int.TryParse(part, out var i) ? node.AsArray()[i]! : node[part]!).ToJsonString();

    private int Index(Func<JsonNode, bool> which) => Enumerable.Range(0, _bodies.Count).First(i => which(JsonNode.Parse(_bodies[i])!));

    private LedgerCopy Copy(IReadOnlyList<string> bodies)
    {
        var copy = new LedgerCopy(_file);
        copy.Rewrite(1, bodies[0]);
        return copy;
    }
}
