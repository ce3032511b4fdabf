using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Asking;

/// <summary>Who asks, as far as that is known.</summary>
/// <param name="Client">The name of the client in the configuration, or its address.</param>
/// <param name="Cell">The cell of the client.</param>
/// <param name="Address">The address and port that the request came from.</param>
/// <param name="Tag">The tag that was sent.</param>
/// <param name="Request">The request id that was sent.</param>
public sealed record Caller(string? Client, string? Cell, string? Address, string? Tag = null, string? Request = null)
{
    /// <summary>The pin of the certificate that the caller showed; null: none.</summary>
    public string? Certificate { get; init; }

    /// <summary>The caller, as an entry records it.</summary>
    public static Caller Of(EntryBody body) => new(body.Client, body.Cell, body.Address, body.Tag, body.Request) { Certificate = body.Certificate };

    /// <summary>Records the caller in an entry.</summary>
    public void WriteTo(EntryBody body) =>
        (body.Client, body.Cell, body.Address, body.Certificate, body.Tag, body.Request) = (Client, Cell, Address, Certificate, Tag, Request);
}
