using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Asking;

/// <summary>Who asks, as far as it is known.</summary>
/// <param name="Client">The configuration's name for it, or its address.</param>
/// <param name="Cell">Its cell.</param>
/// <param name="Address">The address and port that the request came from.</param>
/// <param name="Tag">The tag sent.</param>
/// <param name="Request">The request id sent.</param>
public sealed record Caller(string? Client, string? Cell, string? Address, string? Tag = null, string? Request = null)
{
    /// <summary>Who asked for what an entry says.</summary>
    public static Caller Of(EntryBody body) => new(body.Client, body.Cell, body.Address, body.Tag, body.Request);
}
