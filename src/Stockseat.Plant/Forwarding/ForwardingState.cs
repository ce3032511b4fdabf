namespace Stockseat.Plant.Forwarding;

/// <summary>How forwarding to the plant store goes.</summary>
/// <param name="Store">The store's name.</param>
/// <param name="Connected">Whether the store was reached at the last attempt.</param>
/// <param name="Waiting">Whether it failed so often that no attempt is made for a while.</param>
/// <param name="Cause">Why it was not reached; null: it was, or was not tried yet.</param>
/// <param name="Stored">The newest entry of this service that is known to be stored; 0: none.</param>
/// <param name="Even">When everything was stored the last time; null: not since the start.</param>
/// <param name="Faults">What keeps ledgers from being sent, in words; empty: nothing.</param>
public sealed record ForwardingState(
    string Store, bool Connected, bool Waiting, string? Cause, long Stored, DateTimeOffset? Even, IReadOnlyList<string> Faults);
