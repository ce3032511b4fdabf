namespace Stockseat.Audit.Reviewing.Results;

/// <summary>The rules by which a review finds what to look at. Their order counts among findings that sent the robot nowhere (<c>FindingOrder</c>).</summary>
public enum FindingRule
{
    /// <summary>The entries shown are not as they were written.</summary>
    LedgerNotWhole = 1,

    /// <summary>An answer or a refusal does not follow from its inputs.</summary>
    DoesNotFollow = 2,

    /// <summary>A number read back is not what was served.</summary>
    ReadBackDiffers = 3,

    /// <summary>An answer was used whose measurement is from before the nests were emptied or refilled.</summary>
    BeforeRefill = 4,

    /// <summary>Another lot was measured between two answers, and nobody said that the nests were emptied.</summary>
    OtherLotBetween = 5,

    /// <summary>The diameter that a client stated is not the one that was measured.</summary>
    StatedNotMeasured = 6,

    /// <summary>The shift moved further than the limit, and nothing says that the stock was changed.</summary>
    ShiftJump = 7,

    /// <summary>A measurement is far from its lot.</summary>
    FarFromLot = 8,

    /// <summary>A place was asked with a diameter above that of the raw stock.</summary>
    PlaceAboveRaw = 9,

    /// <summary>A revision came into force between two asks, or after the last one.</summary>
    AdoptionBetween = 10,

    /// <summary>A master was not found where it was predicted.</summary>
    RecheckMissed = 11,

    /// <summary>A refusal was followed by no new answer.</summary>
    RefusedAndNoAnswer = 12,

    /// <summary>An answer was never confirmed.</summary>
    NotConfirmed = 13,

    /// <summary>An answer was confirmed, and nobody said that its move went well.</summary>
    NotCarriedOut = 14,

    /// <summary>Answers came from a revision that rechecks had not proven.</summary>
    UnprovenRevision = 15,

    /// <summary>The clock was set.</summary>
    ClockStep = 16,

    /// <summary>The service was started again.</summary>
    Restart = 17,

    /// <summary>The uncertainty of an answer is near its limit.</summary>
    NearUncertaintyLimit = 18,

    /// <summary>Somebody noted something.</summary>
    Note = 19,

    /// <summary>A nest was picked that was picked already.</summary>
    PickedTwice = 20,

    /// <summary>A nest was picked in which nothing stood.</summary>
    PickedEmpty = 21,

    /// <summary>Something was placed into a nest that was full.</summary>
    PlacedIntoFull = 22,

    /// <summary>Nests were loaded anew, and nobody had ended the load before.</summary>
    LoadNotEnded = 23,
}
