namespace Stockseat.Service.Gauges;

/// <summary>
/// Why something that came in at a reading port was not used, or a connection was not kept. Each is counted; the names are in status and in the log.
/// </summary>
public enum PortCause
{
    /// <summary>The line does not match the port's pattern as a whole, or holds more than one reading.</summary>
    NoMatch = 1,

    /// <summary>Matching took too long.</summary>
    PatternTimeout,

    /// <summary>It came within the second after a match that took too long, and was not examined.</summary>
    PassedOver,

    /// <summary>The reading is not a plain number: an overflow word, an exponent.</summary>
    NoNumber,

    /// <summary>The reading has the other decimal mark.</summary>
    DecimalMark,

    /// <summary>The reading is 0 or below.</summary>
    NotPositive,

    /// <summary>The reading is longer than the longest that is accepted.</summary>
    TooLarge,

    /// <summary>The unit in the line is missing or not known.</summary>
    UnitUnknown,

    /// <summary>The lot in the line is not a name.</summary>
    LotMalformed,

    /// <summary>The master is in the gauge.</summary>
    Master,

    /// <summary>A line longer than a line may be.</summary>
    TooLong,

    /// <summary>A line with bytes that are not text.</summary>
    NotText,

    /// <summary>Half a line: the connection ended within it, or the rest took too long.</summary>
    CutOff,

    /// <summary>Lines came faster than they are examined.</summary>
    TooFast,

    /// <summary>A reading had waited too long for the others of its measurement, or was of another lot.</summary>
    Expired,

    /// <summary>Readings came faster than the ledger takes measurements.</summary>
    Overrun,

    /// <summary>The connection was replaced by a newer one.</summary>
    Replaced,

    /// <summary>A connection came from an address that is not the gauge's.</summary>
    Stranger,

    /// <summary>The connection to the gauge was lost or could not be made.</summary>
    NoConnection,

    /// <summary>Another protocol: HTTP of a page in a browser, TLS, STUN. The connection was closed.</summary>
    Foreign,

    /// <summary>A line that began within the first moments after connecting: it may be an old one.</summary>
    Settling,

    /// <summary>Lines that followed each other faster than a gauge measures: they come out of a buffer, and may be old.</summary>
    Burst,
}

/// <summary>The names of the causes.</summary>
public static class PortCauseNames
{
    /// <summary>Its name in status and logs, in lower-kebab case.</summary>
    public static string Name(this PortCause cause) => cause switch
    {
        PortCause.NoMatch => "no-match",
        PortCause.PatternTimeout => "pattern-timeout",
        PortCause.PassedOver => "passed-over",
        PortCause.NoNumber => "no-number",
        PortCause.DecimalMark => "decimal-mark",
        PortCause.NotPositive => "not-positive",
        PortCause.TooLarge => "too-large",
        PortCause.UnitUnknown => "unit-unknown",
        PortCause.LotMalformed => "lot-malformed",
        PortCause.Master => "master",
        PortCause.TooLong => "too-long",
        PortCause.NotText => "not-text",
        PortCause.CutOff => "cut-off",
        PortCause.TooFast => "too-fast",
        PortCause.Expired => "expired",
        PortCause.Overrun => "overrun",
        PortCause.Replaced => "replaced",
        PortCause.Stranger => "stranger",
        PortCause.NoConnection => "no-connection",
        PortCause.Foreign => "foreign",
        PortCause.Settling => "settling",
        PortCause.Burst => "burst",
        _ => throw new ArgumentOutOfRangeException(nameof(cause), cause, "no such cause"),
    };
}
