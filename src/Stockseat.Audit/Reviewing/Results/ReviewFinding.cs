namespace Stockseat.Audit.Reviewing.Results;

/// <summary>Something in the window that a person should look at.</summary>
/// <param name="Rule">Which rule found it.</param>
/// <param name="Serials">The entries that it is about, in order.</param>
/// <param name="Fixture">The fixture; null when it is about none.</param>
/// <param name="What">What happened, in a sentence with its numbers.</param>
/// <param name="Why">Why it matters.</param>
/// <param name="Next">What to look at next.</param>
public sealed record ReviewFinding(FindingRule Rule, IReadOnlyList<long> Serials, string? Fixture, string What, string Why, string Next)
{
    /// <summary>How far it may have sent the robot to a wrong place, in metres; 0: it sent it nowhere; null: not known.</summary>
    public double? MovedMetres { get; init; }

    /// <summary>Whether <see cref="MovedMetres"/> is less than the last digit that was served.</summary>
    public bool BelowResolution { get; init; }

    /// <summary>Whether the last answer of a fixture before the instant rests on one of its entries.</summary>
    public bool OnLastAnswer { get; init; }
}
