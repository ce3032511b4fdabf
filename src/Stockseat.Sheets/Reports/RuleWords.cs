using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Sheets.Reports;

/// <summary>The rules' names for people.</summary>
public static class RuleWords
{
    /// <summary>The name of a rule.</summary>
    public static string Of(FindingRule rule) => rule switch
    {
        FindingRule.LedgerNotWhole => "The ledger is not intact",
        FindingRule.DoesNotFollow => "Does not follow from its inputs",
        FindingRule.ReadBackDiffers => "The numbers read back are not those served",
        FindingRule.BeforeRefill => "Measured before the refill",
        FindingRule.OtherLotBetween => "Another lot, and not emptied",
        FindingRule.StatedNotMeasured => "The stated diameter is not the measured one",
        FindingRule.ShiftJump => "The shift jumped",
        FindingRule.FarFromLot => "Far from its lot",
        FindingRule.PlaceAboveRaw => "A place above the raw stock",
        FindingRule.AdoptionBetween => "Another revision came into force between asks",
        FindingRule.RecheckMissed => "A recheck missed",
        FindingRule.RefusedAndNoAnswer => "Refused, and no answer after it",
        FindingRule.NotConfirmed => "Not confirmed",
        FindingRule.NotCarriedOut => "Not carried out",
        FindingRule.UnprovenRevision => "Revision not proven",
        FindingRule.ClockStep => "The clock was set",
        FindingRule.Restart => "The service was started again",
        FindingRule.NearUncertaintyLimit => "Uncertainty near its limit",
        FindingRule.Note => "Noted",
        FindingRule.PickedTwice => "Picked twice",
        FindingRule.PickedEmpty => "Picked from an empty nest",
        FindingRule.PlacedIntoFull => "Placed into a full nest",
        FindingRule.LoadNotEnded => "A load that nobody ended",
        _ => rule.ToString(),
    };
}
