using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Sheets.Reports;

/// <summary>The rules' names for people.</summary>
internal static class RuleWords
{
    public static string Of(FindingRule rule) => rule switch
    {
        FindingRule.LedgerNotWhole => "The ledger is not whole",
        FindingRule.DoesNotFollow => "Does not follow from its inputs",
        FindingRule.ReadBackDiffers => "Read back other numbers than were served",
        FindingRule.BeforeRefill => "Measured before the refill",
        FindingRule.StatedNotMeasured => "Stated another diameter than was measured",
        FindingRule.ShiftJump => "The shift jumped",
        FindingRule.FarFromLot => "Far from its lot",
        FindingRule.AdoptionBetween => "Another revision came in force between asks",
        FindingRule.RecheckMissed => "A recheck missed",
        FindingRule.RefusedAndNoAnswer => "Refused, and no answer after it",
        FindingRule.NotConfirmed => "Not confirmed",
        FindingRule.ClockStep => "The clock was set",
        FindingRule.Restart => "The service was started again",
        FindingRule.NearUncertaintyLimit => "Uncertainty near its limit",
        _ => rule.ToString(),
    };
}
