namespace Stockseat.Service.Clients;

/// <summary>
/// The limits that protect a good client from a bad one. A good controller never meets the defaults, and they limit the memory of 4,000 bad ones.
/// </summary>
public sealed record DoorLimits
{
    /// <summary>How many connections there may be in all, lines and gRPC together.</summary>
    public int Connections { get; init; } = 4000;

    /// <summary>How many requests of one connection may be under way at once; further ones are read when those are answered.</summary>
    public int Pipelined { get; init; } = 16;

    /// <summary>From connecting to the end of the first line.</summary>
    public TimeSpan FirstLine { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>From the first byte of a line to its end.</summary>
    public TimeSpan Line { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>From connecting to the end of the agreement on TLS.</summary>
    public TimeSpan Handshake { get; init; } = TimeSpan.FromSeconds(5);

    /// <summary>How many connections may be agreeing on TLS at once.</summary>
    public int Handshakes { get; init; } = 64;

    /// <summary>From a reply to the first byte of the next line.</summary>
    public TimeSpan Idle { get; init; } = TimeSpan.FromHours(12);

    /// <summary>The time in which a client that reads slowly has to take a reply.</summary>
    public TimeSpan Reply { get; init; } = TimeSpan.FromSeconds(10);
}
