using Stockseat.Answers.Reasons;
using Stockseat.Answers.Records;
using Stockseat.Ledger.Queries;
using Stockseat.Ledger.Replaying;

namespace Stockseat.Ledger.Tests.Replaying;

/// <summary>What was decided comes out the same when it is decided again, whatever happened between.</summary>
public sealed class ReplayTests
{
    [Fact]
    public async Task All_of_a_varied_ledger_comes_out_the_same_with_any_number_of_ranges()
    {
        using var ledger = await Varied.Make();
        using var reader = LedgerReader.Open(ledger.Folder);
        var bodies = reader.Piece(0, reader.Last, int.MaxValue, null).Rows.Select(r => r.ReadBody()!).ToList();
        var reasons = bodies.OfType<RefusalBody>().Select(r => r.Refusal.Reason).ToHashSet();
        Assert.Empty(Enum.GetValues<Reason>().Except(reasons).Except(Varied.Elsewhere));

        var found = ledger.Replay();

        Assert.Empty(found.Differences);
        Assert.Null(found.Unreadable);
        Assert.Equal((1, reader.Last, 0, 0), (found.First, found.Last, found.ExitCode, (int)found.MoreDifferences));
        Assert.Equal(bodies.OfType<AnswerBody>().Count(), found.Answers);
        Assert.Equal(bodies.OfType<RefusalBody>().Count(), found.Refusals);
        Assert.Equal(bodies.Count(Answers.Replaying.Recomputing.Follows) - found.Answers - found.Refusals, found.Others);
        Assert.Equal((found.Answers + found.Refusals + found.Others, 0), (found.Same, found.Within));
    }
}
