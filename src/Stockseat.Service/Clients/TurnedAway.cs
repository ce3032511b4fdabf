namespace Stockseat.Service.Clients;

/// <summary>Why something got no entry in the ledger. Each is counted; the names are in status, in metrics and in the log.</summary>
public enum TurnedAway
{
    /// <summary>No client of the configuration has that address.</summary>
    NoClient = 1,

    /// <summary>There are as many connections as there may be in all.</summary>
    Connections,

    /// <summary>The client has as many connections as it may have.</summary>
    ClientConnections,

    /// <summary>The client sent more requests a second than it may.</summary>
    Rate,

    /// <summary>No complete line came in time after connecting.</summary>
    FirstLine,

    /// <summary>A line was begun and not ended in time.</summary>
    Line,

    /// <summary>Nothing came for too long.</summary>
    Idle,

    /// <summary>The client did not take its replies in time.</summary>
    Reply,

    /// <summary>A line was too long.</summary>
    TooLong,

    /// <summary>A line could not be read.</summary>
    Malformed,

    /// <summary>It was another protocol.</summary>
    Foreign,

    /// <summary>Too many asks were waiting.</summary>
    TooBusy,

    /// <summary>The ledger could not be written.</summary>
    LedgerUnavailable,

    /// <summary>The service was stopping.</summary>
    ShuttingDown,

    /// <summary>TLS did not come to an end in time, or failed for another reason than a certificate.</summary>
    Handshake,

    /// <summary>Too many connections were still agreeing on TLS.</summary>
    Handshakes,

    /// <summary>The client's certificate had ended.</summary>
    CertificateEnded,

    /// <summary>The client's certificate is not valid yet.</summary>
    CertificateNotYet,

    /// <summary>The client's certificate is for another use.</summary>
    CertificateUse,

    /// <summary>No authority of the configuration vouches for the client's certificate, and no entry states its pin.</summary>
    CertificateAuthority,

    /// <summary>The client's certificate is good, but no entry states its pin or one of its names, with the address that it came from.</summary>
    CertificateUnlisted,

    /// <summary>A request named a host that the service does not go by, or came from a page in a browser.</summary>
    Host,
}

/// <summary>The names of the causes.</summary>
public static class TurnedAwayNames
{
    /// <summary>Its name in status and logs, in lower-kebab case.</summary>
    public static string Name(this TurnedAway why) => why switch
    {
        TurnedAway.NoClient => "no-client",
        TurnedAway.Connections => "connections",
        TurnedAway.ClientConnections => "client-connections",
        TurnedAway.Rate => "rate",
        TurnedAway.FirstLine => "first-line",
        TurnedAway.Line => "line",
        TurnedAway.Idle => "idle",
        TurnedAway.Reply => "reply",
        TurnedAway.TooLong => "too-long",
        TurnedAway.Malformed => "malformed",
        TurnedAway.Foreign => "foreign",
        TurnedAway.TooBusy => "too-busy",
        TurnedAway.LedgerUnavailable => "ledger-unavailable",
        TurnedAway.ShuttingDown => "shutting-down",
        TurnedAway.Handshake => "handshake",
        TurnedAway.Handshakes => "handshakes",
        TurnedAway.CertificateEnded => "certificate-ended",
        TurnedAway.CertificateNotYet => "certificate-not-yet",
        TurnedAway.CertificateUse => "certificate-use",
        TurnedAway.CertificateAuthority => "certificate-authority",
        TurnedAway.CertificateUnlisted => "certificate-unlisted",
        TurnedAway.Host => "host",
        _ => throw new ArgumentOutOfRangeException(nameof(why), why, "no such cause"),
    };
}
