using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Roll;
using Stockseat.Answers.Verbs;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Ledger.Tests.Verifying;
using Stockseat.Tests.Support.Ledgers;

namespace Stockseat.Ledger.Tests.Rolling;

/// <summary>A beginning of a new ledger that nobody could read is not written: the old ledger continues.</summary>
[Collection(nameof(LongBodyTests.Alone))]
public sealed class CarriesTooMuchTests
{
    [Fact]
    public async Task When_too_many_revisions_would_have_to_be_carried_the_old_ledger_is_kept()
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.End();
        const int adoptions = 15; // near 4 MiB each
        using (var forger = new Forger(ledger.File))
        {
            var last = forger.Bodies()[^1].Serial;
            var adopted = forger.Bodies().Single(b => b.Body.Contains("\"kind\":\"revision-adopted\"", StringComparison.Ordinal));
            forger.Append(Enumerable.Range(1, adoptions).Select(i =>
                (last + i, adopted.Body.Replace($"\"serial\":{adopted.Serial}", $"\"serial\":{last + i}", StringComparison.Ordinal))));
            forger.Lengthen(last + 1, BodyJson.Longest, adoptions);
        }

        (ledger.Unclean, ledger.SnapshotEvery) = (true, 3);
        await ledger.Begin();
        var roll = new RollAsk(new("bench", null, null, null, null)) { By = "setter", Why = "full", Next = "ledger-2" };

        Assert.Equal(Reason.LedgerUnavailable, await ledger.Refused(roll));
        Assert.IsType<AnswerBody>(await ledger.Do(Support.Ledger.Locate()));

        await ledger.Close();
        Assert.DoesNotContain(ledger.Rows(), r => r.Kind is Kinds.RolledOver or Kinds.Snapshot); // It is too long for a single body too.
        Assert.Empty(ledger.Verify().Faults);
    }
}
