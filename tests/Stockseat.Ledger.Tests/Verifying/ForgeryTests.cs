using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Tests.Support;

namespace Stockseat.Ledger.Tests.Verifying;

/// <summary>What somebody who can write to the file and recompute every hash can do: only a seal or an anchor reveals it.</summary>
public sealed class ForgeryTests
{
    [Fact]
    public async Task An_inserted_entry_with_the_rest_chained_again_is_found_by_the_next_seal_and_by_an_anchor()
    {
        var ledger = await SealedLedger.Get();
        for (var n = 1; n < ledger.Bodies.Count; n++)
        {
            using var copy = new LedgerCopy(ledger.File);
            copy.Rechain([.. ledger.Bodies.Take(n), ledger.Bodies[2], .. ledger.Bodies.Skip(n)]);

            Assert.All(copy.Verify().Faults, f => Assert.Equal("bad-seal", f.Kind));
            Assert.Equal(ledger.Seals.First(s => s > n) + 1, copy.Verify().Faults[0].Serial);
            Assert.Contains(copy.Verify(new() { Anchors = [ledger.Head] }).Faults, f => f.Kind == "fork");
        }
    }

    [Fact]
    public async Task An_edit_with_the_whole_tail_chained_again_is_found_by_the_next_seal_and_by_an_anchor()
    {
        var ledger = await SealedLedger.Get();
        foreach (var n in Enumerable.Range(1, ledger.Bodies.Count - 1).Except(ledger.Seals))
        {
            using var copy = new LedgerCopy(ledger.File);
            copy.Rechain(Edited(ledger, n));

            var found = copy.Verify();

            Assert.Equal((ledger.Seals.First(s => s > n), "bad-seal"), (found.Faults[0].Serial, found.Faults[0].Kind));
            Assert.Contains(copy.Verify(new() { Anchors = [ledger.Head] }).Faults, f => f.Kind == "fork");
        }
    }

    [Fact]
    public async Task A_ledger_sealed_again_by_another_key_passes_unless_the_key_or_an_anchor_is_given()
    {
        var ledger = await SealedLedger.Get();
        using var copy = new LedgerCopy(ledger.File);
        copy.Rechain(Edited(ledger, 3), ledger.Foreign);

        var alone = copy.Verify(new() { RequireSeal = true });
        var withKeys = copy.Verify(new() { Keys = [ledger.First.Public, ledger.Second.Public] });
        var withAnchor = copy.Verify(new() { Anchors = [ledger.Head] });

        Assert.True(alone.Whole); // the README says so
        Assert.Contains(alone.Findings, f => f.Contains("the key is the one that the ledger itself names", StringComparison.Ordinal));
        Assert.Equal(ledger.Seals.Select(s => ((long)s, "unknown-key")), withKeys.Faults.Select(f => (f.Serial, f.Kind)));
        Assert.Equal((ledger.Bodies.Count, "fork"), ((int)Assert.Single(withAnchor.Faults).Serial, withAnchor.Faults[0].Kind));
    }

    [Fact]
    public async Task A_ledger_without_its_seals_is_intact_unless_seals_are_required()
    {
        var ledger = await SealedLedger.Get();
        using var copy = new LedgerCopy(ledger.File);
        copy.Rechain(ledger.Bodies.Where((_, i) => !ledger.Seals.Contains(i + 1)));

        var alone = copy.Verify();

        Assert.True(alone.Whole);
        Assert.Contains(alone.Findings, f => f.StartsWith("unsealed: ", StringComparison.Ordinal));
        Assert.Equal("unsealed", Assert.Single(copy.Verify(new() { RequireSeal = true }).Faults).Kind);
    }

    [Fact]
    public async Task A_seal_that_was_changed_is_bad()
    {
        var ledger = await SealedLedger.Get();
        var at = ledger.Seals[^1] - 1;
        void Is(string kind, string words, params (string, System.Text.Json.Nodes.JsonNode?)[] changes)
        {
            using var copy = new LedgerCopy(ledger.File);
            copy.Rechain([.. ledger.Bodies.Take(at), LedgerCopy.With(ledger.Bodies[at], changes)]);
            var fault = Assert.Single(copy.Verify().Faults);
            Assert.Equal((at + 1L, kind), (fault.Serial, fault.Kind));
            Assert.Contains(words, fault.Text, StringComparison.Ordinal);
        }

        Is("bad-seal", "signature", ("at", "2026-11-25T08:00:00.000001Z"));
        Is("bad-seal", "signature", ("signature", "AAAA"));
        Is("bad-seal", "signature", ("signature", "not base64"));
        Is("bad-seal", "but this is ledger", ("ledger", "ledger-2"));
        Is("bad-seal", "not that of the entry before it", ("sealed", at - 1));
        Is("bad-seal", "not that of the entry before it", ("head", new string('0', 64)));
        Is("bad-seal", "public key", ("publicKey", ledger.First.Public.Base64));
        Is("bad-seal", "public key", ("publicKey", "AAAA"));
        Is("unknown-key", "which no seal up to here carries", ("key", ledger.Foreign.Public.Fingerprint));
        Is("body", "can't be read", ("signature", null));
    }

    [Fact]
    public async Task A_key_that_no_seal_includes_is_unknown_until_it_is_given()
    {
        var ledger = await SealedLedger.Get();
        var without = LedgerCopy.With(ledger.Bodies[ledger.Seals[0] - 1], ("publicKey", null));
        using var copy = new LedgerCopy(ledger.File);
        copy.Rechain([.. ledger.Bodies.Take(ledger.Seals[0] - 1), without]);

        Assert.Equal("unknown-key", Assert.Single(copy.Verify().Faults).Kind);
        Assert.Empty(copy.Verify(new() { Keys = [ledger.First.Public], RequireSeal = true }).Faults);
        Assert.Equal("unknown-key", Assert.Single(copy.Verify(new() { Keys = [ledger.Second.Public] }).Faults).Kind);
    }

    [Fact]
    public async Task A_long_unsealed_tail_is_a_finding_and_a_fault_where_seals_are_required()
    {
        var ledger = await SealedLedger.Get();
        using var copy = new LedgerCopy(ledger.File);
        copy.Sql($"DELETE FROM entry WHERE serial = {ledger.Bodies.Count}");
        var tail = ledger.Bodies.Count - 1 - ledger.Seals[^2];

        Assert.Contains(copy.Verify().Findings,
            f => f.StartsWith($"unsealed tail: {tail} entries after the newest seal {ledger.Seals[^2]}", StringComparison.Ordinal));
        Assert.True(copy.Verify(new() { RequireSeal = true, Tail = tail }).Whole);
        var fault = Assert.Single(copy.Verify(new() { RequireSeal = true, Tail = tail - 1 }).Faults);
        Assert.Equal((ledger.Seals[^2] + 1L, "unsealed-tail"), (fault.Serial, fault.Kind));
    }

    /// <summary>Without an anchor outside the machine nobody can detect this; with one it is found.</summary>
    [Fact]
    public async Task A_cut_tail_passes_without_an_anchor_and_fails_with_one()
    {
        var ledger = await SealedLedger.Get();
        for (var n = 1; n < ledger.Bodies.Count; n++)
        {
            using var copy = new LedgerCopy(ledger.File);
            copy.Sql($"DELETE FROM entry WHERE serial > {n}");

            Assert.True(copy.Verify().Whole);
            Assert.Contains(copy.Verify().Findings, f => f.Contains("a cut tail", StringComparison.Ordinal));
            Assert.Equal((n, "cut"), ((int)Assert.Single(copy.Verify(new() { Anchors = [ledger.Head] }).Faults).Serial,
                copy.Verify(new() { Anchors = [ledger.Head] }).Faults[0].Kind));
        }
    }

    [Fact]
    public async Task An_old_copy_that_was_continued_passes_without_an_anchor_and_is_a_fork_with_one()
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do(Support.Ledger.Locate());
        await ledger.End();
        var old = File.ReadAllBytes(ledger.File);
        await ledger.Begin();
        await ledger.Do(Support.Ledger.Locate(0.091));
        await ledger.End();
        var head = ledger.Rows()[^1];
        var anchor = new Anchor("ledger-1", head.Serial, Convert.ToHexStringLower(head.Hash), head.At, null, null);
        Assert.True(ledger.Verify(new() { Anchors = [anchor] }).Whole);

        File.WriteAllBytes(ledger.File, old);
        var restored = ledger.Verify(new() { Anchors = [anchor] });
        await ledger.Begin();
        await ledger.Do(Support.Ledger.Locate(0.092));
        await ledger.Do(Support.Ledger.Locate(0.093));
        await ledger.End();

        Assert.Equal("cut", Assert.Single(restored.Faults).Kind);
        Assert.True(ledger.Verify().Whole);
        var fault = Assert.Single(ledger.Verify(new() { Anchors = [anchor] }).Faults);
        Assert.Equal((anchor.Serial, "fork"), (fault.Serial, fault.Kind));
    }

    [Fact]
    public async Task An_anchor_counts_only_as_its_key_signed_it()
    {
        var ledger = await SealedLedger.Get();
        using var copy = new LedgerCopy(ledger.File);
        var seal = (Answers.Events.SealBody)Answers.Verbs.BodyJson.Read("seal", System.Text.Encoding.UTF8.GetBytes(ledger.Bodies[ledger.Seals[0] - 1]))!;
        var anchor = Anchor.Of(seal);

        Assert.Empty(copy.Verify(new() { Anchors = [anchor] }).Faults);
        var changed = copy.Verify(new() { Anchors = [anchor with { Hash = new string('0', 64) }] });
        Assert.Equal((2, 0), (changed.ExitCode, changed.Faults.Count));
        Assert.Contains("it was changed", changed.Unreadable, StringComparison.Ordinal);
        Assert.Equal("other-ledger", Assert.Single(copy.Verify(new() { Anchors = [ledger.Head with { Ledger = "ledger-2" }] }).Faults).Kind);
        var unknown = copy.Verify(new() { Anchors = [anchor with { Key = ledger.Foreign.Public.Fingerprint }] });
        Assert.True(unknown.Whole);
        Assert.Contains(unknown.Findings, f => f.Contains("its signature was not checked", StringComparison.Ordinal));
        Assert.Equal("cut", Assert.Single(copy.Verify(new() { Anchors = [ledger.Head with { Serial = 0 }] }).Faults).Kind);
    }

    private static IEnumerable<string> Edited(SealedLedger ledger, int n) =>
        ledger.Bodies.Select((b, i) => i == n - 1 ? LedgerCopy.With(b, ("note", "edited")) : b);
}
