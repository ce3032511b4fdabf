namespace Stockseat.Answers.Reasons;

/// <summary>
/// Why an ask or a push was refused: one closed list, the same in gRPC, in lines and in the ledger.
/// The numbers are on the wire and on disk: they never change and are never used again.
/// </summary>
public enum Reason
{
    None = 0,
    FixtureUnknown = 1,
    FixtureWithdrawn = 2,
    FixtureHeld = 3,
    CalibrationUnusable = 4,
    RevisionChanged = 5,
    DiameterMissing = 6,
    DiameterMalformed = 7,
    UnitMissing = 8,
    UnitUnknown = 9,
    DiameterBelowEnvelope = 10,
    DiameterAboveEnvelope = 11,
    ShiftAboveLimit = 12,
    UncertaintyAboveLimit = 13,
    MassAboveLimit = 14,
    MeasurementMissing = 15,
    MeasurementStale = 16,
    MeasurementOutsideLot = 17,
    ReadingsDisagree = 18,
    GaugeUnknown = 19,
    LotUnknown = 20,
    NestUnknown = 21,
    PurposeUnknown = 22,
    SerialUnknown = 23,
    ReadbackDiffers = 24,
    RecheckFailed = 25,
    RevisionUnknown = 26,
    VerbUnknown = 27,
    KeyUnknown = 28,
    KeyDoubled = 29,
    KeyMissing = 30,
    ValueMalformed = 31,
    RequestMalformed = 32,
    RequestTooLong = 33,
    NotPermitted = 34,
    TooBusy = 35,
    LedgerUnavailable = 36,
    ShuttingDown = 37,
    InternalFailure = 38,
}
