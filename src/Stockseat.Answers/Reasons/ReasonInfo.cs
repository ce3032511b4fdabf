using System.Collections.Frozen;
using static Stockseat.Answers.Reasons.Reason;
using static Stockseat.Answers.Reasons.ReasonClass;

namespace Stockseat.Answers.Reasons;

/// <summary>Everything that belongs to a reason, wherever the reason is used.</summary>
/// <param name="Name">Its name in lines and in the ledger, in lower-kebab case.</param>
/// <param name="Class">Who can do something about it.</param>
/// <param name="GrpcStatus">The gRPC status code's number.</param>
/// <param name="ExitCode">The command line's exit code: 1 refused, 2 could not be done.</param>
/// <param name="Advice">What to do next.</param>
public sealed record ReasonInfo(string Name, ReasonClass Class, int GrpcStatus, int ExitCode, string Advice)
{
    // google.rpc.Code
    private const int InvalidArgument = 3;
    private const int NotFound = 5;
    private const int PermissionDenied = 7;
    private const int ResourceExhausted = 8;
    private const int FailedPrecondition = 9;
    private const int OutOfRange = 11;
    private const int Internal = 13;
    private const int Unavailable = 14;

    private static readonly FrozenDictionary<Reason, ReasonInfo> All =
        Enum.GetValues<Reason>().Where(r => r != None).ToFrozenDictionary(r => r, Make);

    private static readonly FrozenDictionary<string, Reason> ByName = All.ToFrozenDictionary(p => p.Value.Name, p => p.Key);

    /// <summary>Its class in lines, in lower case.</summary>
    public string ClassName { get; } = Class.ToString().ToLowerInvariant();

    /// <summary>Its name in gRPC's ErrorInfo, in UPPER_SNAKE case.</summary>
    public string GrpcName => Name.ToUpperInvariant().Replace('-', '_');

    /// <summary>The information about a reason.</summary>
    public static ReasonInfo Of(Reason reason) => All[reason];

    /// <summary>The reason of a name; <see cref="None"/> when there is none.</summary>
    public static Reason Find(string name) => ByName.GetValueOrDefault(name);

    private static ReasonInfo Make(Reason reason) => reason switch
    {
        FixtureUnknown => new("fixture-unknown", Request, NotFound, 1, "ask for a fixture that 'status' or 'stockseat fixture list' shows"),
        FixtureWithdrawn => new("fixture-withdrawn", Cell, FailedPrecondition, 1, "put the fixture's folder back, or leave the fixture out of the program"),
        FixtureHeld => new("fixture-held", Cell, FailedPrecondition, 1, "wait until whoever holds the fixture has finished and released it"),
        CalibrationUnusable => new("calibration-unusable", Cell, FailedPrecondition, 1, "correct the revision's file and adopt it"),
        RevisionChanged => new("revision-changed", Cell, FailedPrecondition, 1, "restore the file and publish the new values under the next number"),
        DiameterMissing => new("diameter-missing", Request, InvalidArgument, 1, "state the diameter with its unit"),
        DiameterMalformed => new("diameter-malformed", Request, InvalidArgument, 1, "send digits with a point and a unit, above 0 and up to 10 m, for "
            + "example 92.40mm"),
        UnitMissing => new("unit-missing", Request, InvalidArgument, 1, "add mm, m, um or in"),
        UnitUnknown => new("unit-unknown", Request, InvalidArgument, 1, "use mm, m, um or in"),
        DiameterBelowEnvelope => new("diameter-below-envelope", Cell, OutOfRange, 1, "measure the stock again; this fixture can't hold it"),
        DiameterAboveEnvelope => new("diameter-above-envelope", Cell, OutOfRange, 1, "measure the stock again; this fixture can't hold it"),
        ShiftAboveLimit => new("shift-above-limit", Cell, OutOfRange, 1,
            "measure the stock again, or adopt a revision that was taught nearer to this diameter"),
        UncertaintyAboveLimit => new("uncertainty-above-limit", Cell, OutOfRange, 1, "measure with a better gauge, or calibrate the fixture again"),
        MassAboveLimit => new("mass-above-limit", Cell, OutOfRange, 1, "handle this stock by other means"),
        MeasurementMissing => new("measurement-missing", Cell, FailedPrecondition, 1, "measure the stock and ask again"),
        MeasurementStale => new("measurement-stale", Cell, FailedPrecondition, 1, "measure the stock again and ask again"),
        MeasurementOutsideLot => new("measurement-outside-lot", Cell, FailedPrecondition, 1, "measure the lot that is in the nests"),
        ReadingsDisagree => new("readings-disagree", Cell, FailedPrecondition, 1, "clean stock and gauge, and measure again"),
        GaugeUnknown => new("gauge-unknown", Request, NotFound, 1, "use a gauge of the configuration, or add this gauge to it"),
        LotUnknown => new("lot-unknown", Request, NotFound, 1, "use a lot of the configuration, or describe this lot"),
        NestUnknown => new("nest-unknown", Request, InvalidArgument, 1, "ask for a nest of the layout; the first is 0,0"),
        PurposeUnknown => new("purpose-unknown", Request, InvalidArgument, 1, "use pick or place"),
        SerialUnknown => new("serial-unknown", Request, NotFound, 1, "confirm the serial of an answer"),
        ReadbackDiffers => new("readback-differs", Cell, FailedPrecondition, 1, "stop: the controller does not hold the numbers that were served"),
        RecheckFailed => new("recheck-failed", Cell, FailedPrecondition, 1, "calibrate the fixture and adopt a new revision; a recheck that passes "
            + "does not lift this refusal"),
        RevisionUnknown => new("revision-unknown", Request, NotFound, 1, "use a revision that the fixture's folder holds"),
        VerbUnknown => new("verb-unknown", Request, InvalidArgument, 1, "send help to see the verbs"),
        KeyUnknown => new("key-unknown", Request, InvalidArgument, 1, "send help to see the keys"),
        KeyDoubled => new("key-doubled", Request, InvalidArgument, 1, "send each key once"),
        KeyMissing => new("key-missing", Request, InvalidArgument, 1, "add the key"),
        ValueMalformed => new("value-malformed", Request, InvalidArgument, 1, "correct the value"),
        RequestMalformed => new("request-malformed", Request, InvalidArgument, 1, "send a verb and key=value pairs in printable ASCII, ended by LF"),
        RequestTooLong => new("request-too-long", Request, InvalidArgument, 1, "send a shorter line"),
        NotPermitted => new("not-permitted", Request, PermissionDenied, 1, "if this client may ask, change Clients in the configuration"),
        TooBusy => new("too-busy", ReasonClass.Service, ResourceExhausted, 2, "ask again in a second"),
        LedgerUnavailable => new("ledger-unavailable", ReasonClass.Service, Unavailable, 2, "check the disk of the data folder; the service keeps trying"),
        ShuttingDown => new("shutting-down", ReasonClass.Service, Unavailable, 2, "ask again when the service is back"),
        InternalFailure => new("internal-failure", ReasonClass.Service, Internal, 2, "look at the service's log and report the failure"),
        ReadbackMissing =>
            new("readback-missing", Request, InvalidArgument, 1, "read back every component that is not zero of bx by bz, of ox oy oz, or of x y z"),
        ConfirmationMissing => new("confirmation-missing", Cell, FailedPrecondition, 1, "confirm the answer with its numbers first"),
        AnswerSuperseded => new("answer-superseded", Cell, FailedPrecondition, 1, "stop, and ask again for where the stock is now"),
        LotStillLoaded => new("lot-still-loaded", Cell, FailedPrecondition, 1, "send emptied when the nests were emptied or refilled, then measure again"),
        DiameterAboveRaw => new("diameter-above-raw", Request, OutOfRange, 1, "state the finished diameter; it can't be above that of the raw stock"),
        NotMeasured => new("not-measured", Request, FailedPrecondition, 1, "leave the diameter out, so that the measured one is used"),
        LoadMissing => new("load-missing", Cell, FailedPrecondition, 1, "say what stands in the nests, with loaded, and ask again"),
        MoveUnfinished => new("move-unfinished", Cell, FailedPrecondition, 1,
            "look at the nest; send done with that serial when the move was carried out, dropped when it was not"),
        LoadEmpty => new("load-empty", Cell, FailedPrecondition, 1, "refill the nests and send loaded, or end the program"),
        LengthMissing => new("length-missing", Cell, FailedPrecondition, 1, "measure the length together with the diameter"),
        LengthOutsideLot => new("length-outside-lot", Cell, FailedPrecondition, 1, "measure the lot that is in the nests"),
        LengthAboveLimit => new("length-above-limit", Cell, OutOfRange, 1,
            "measure the length again, or adopt a revision that was taught nearer to this length"),
        RevisionChangedMeanwhile => new("revision-changed-meanwhile", Cell, FailedPrecondition, 1, "look at what is in force now, then adopt again"),
        _ => throw new ArgumentOutOfRangeException(nameof(reason), reason, "no such reason"),
    };
}
