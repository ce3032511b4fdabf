namespace Stockseat.Audit.Replaying;

/// <summary>An entry that does not come out the same.</summary>
/// <param name="Serial">The entry.</param>
/// <param name="Kind">Its kind.</param>
/// <param name="Text">What differs, in a sentence.</param>
/// <param name="Fields">The values that differ; none when it could not be computed.</param>
public sealed record ReplayDifference(long Serial, string Kind, string Text, IReadOnlyList<FieldDifference> Fields);
