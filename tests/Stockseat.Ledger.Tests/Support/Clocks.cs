using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Locate;

namespace Stockseat.Ledger.Tests.Support;

/// <summary>What the tests of the clock ask from a ledger.</summary>
internal static class Clocks
{
    public static async Task<(double Diameter, double? Age)> Located(this Ledger ledger)
    {
        var answer = await ledger.Do<AnswerBody>(Ledger.Locate(null));
        return (answer.Diameter, answer.Age);
    }

    public static async Task<RefusalBody> Stale(this Ledger ledger)
    {
        var refusal = await ledger.Do<RefusalBody>(Ledger.Locate(null));
        Assert.Equal("measurement-stale", refusal.Reason);
        return refusal;
    }

    public static List<ClockStepBody> Steps(this Ledger ledger) => [.. ledger.Rows().Select(r => r.ReadBody()).OfType<ClockStepBody>()];
}
