using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Measured;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Seating.Quantities;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Audit.Tests.Replaying;

/// <summary>A refusal's text has its lengths in the unit of the display that the service had then; a replay finds it whichever that was.</summary>
public sealed class ShownUnitTests
{
    private static readonly LengthUnit[] Units = [LengthUnit.Millimetre, LengthUnit.Inch, LengthUnit.Metre];

    [Fact]
    public async Task A_text_in_any_unit_comes_out_to_the_same_bytes()
    {
        using var ledger = new TestLedger();
        await ledger.Begin();
        var texts = new List<string>();
        foreach (var unit in Units)
        {
            texts.Add((await ledger.Do<RefusalBody>(TestLedger.Locate(0.01) with { Shown = unit, DiameterSent = "10.0mm" })).Text);
            await ledger.Do<RefusalBody>(TestLedger.Locate(0.01) with { Shown = unit });
            await ledger.Do<RefusalBody>(Push(unit, [0.09, 0.0902, 0.09001], ["90mm", "0.0902m", "90.01mm"]));
            await ledger.Do<RefusalBody>(Push(unit, [0.01], ["10mm"]));
        }

        var replayed = ledger.Replay();

        Assert.Equal((0, 12L), (replayed.ExitCode, replayed.Refusals));
        Assert.Equal(replayed.Answers + replayed.Refusals + replayed.Others, replayed.Same);
        Assert.StartsWith("a diameter of 10.0mm is too small for revision 1 of bed, which holds 48.000 to 676.423 mm for a pick: ", texts[0],
            StringComparison.Ordinal);
        Assert.StartsWith("a diameter of 10.0mm (0.3937 in) is too small for revision 1 of bed, which holds 1.8898 to 26.6308 in for a pick: ", texts[1],
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_text_with_another_number_does_not()
    {
        using var ledger = new TestLedger();
        await ledger.Begin();
        var refused = await ledger.Do<RefusalBody>(TestLedger.Locate(0.01) with { Shown = LengthUnit.Inch });
        await ledger.End();
        ledger.Sql($"UPDATE entry SET body = replace(body, '1.8898', '1.8899') WHERE serial = {refused.Serial}");

        var replayed = ledger.Replay();

        Assert.Equal(1, replayed.ExitCode);
        Assert.Equal("text", Assert.Single(Assert.Single(replayed.Differences).Fields).Path);
    }

    private static MeasureAsk Push(LengthUnit unit, double[] readings, string[] sent) => new(new Caller("bench", "demo", null), "bed")
    {
        ReadingsMetres = readings,
        ReadingsSent = sent,
        Terms = new(null, 0.0001, TimeSpan.FromHours(8)),
        Shown = unit,
    };
}
