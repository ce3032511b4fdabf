namespace Stockseat.Audit.Reviewing.Results;

/// <summary>The names of the rules.</summary>
public static class FindingRuleNames
{
    /// <summary>Its name in reports, in lower-kebab case.</summary>
    public static string Name(this FindingRule rule) => rule switch
    {
        FindingRule.LedgerNotWhole => "ledger-not-whole",
        FindingRule.DoesNotFollow => "does-not-follow",
        FindingRule.ReadBackDiffers => "read-back-differs",
        FindingRule.BeforeRefill => "before-refill",
        FindingRule.OtherLotBetween => "other-lot-between",
        FindingRule.StatedNotMeasured => "stated-not-measured",
        FindingRule.ShiftJump => "shift-jump",
        FindingRule.FarFromLot => "far-from-lot",
        FindingRule.PlaceAboveRaw => "place-above-raw",
        FindingRule.AdoptionBetween => "adoption-between",
        FindingRule.RecheckMissed => "recheck-missed",
        FindingRule.RefusedAndNoAnswer => "refused-and-no-answer",
        FindingRule.NotConfirmed => "not-confirmed",
        FindingRule.NotCarriedOut => "not-carried-out",
        FindingRule.UnprovenRevision => "unproven-revision",
        FindingRule.ClockStep => "clock-step",
        FindingRule.Restart => "restart",
        FindingRule.NearUncertaintyLimit => "near-uncertainty-limit",
        FindingRule.Note => "note",
        FindingRule.PickedTwice => "picked-twice",
        FindingRule.PickedEmpty => "picked-empty",
        FindingRule.PlacedIntoFull => "placed-into-full",
        FindingRule.LoadNotEnded => "load-not-ended",
        _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, "no such rule"),
    };
}
