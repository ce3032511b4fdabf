using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.State;

/// <summary>A folder of a fixture that differs from the reading that is kept.</summary>
/// <param name="Fixture">The fixture's name.</param>
/// <param name="Was">The reading that is kept; null when there is none. It is replaced only as long as it is still this one: a newer reading stays.</param>
/// <param name="Is">The folder as it was just read; null when it is gone.</param>
public sealed record FolderChange(string Fixture, FixtureFolder? Was, FixtureFolder? Is);
