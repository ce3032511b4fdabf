using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.State;

/// <summary>A fixture's folder that was found otherwise than it is held.</summary>
/// <param name="Fixture">The fixture's name.</param>
/// <param name="Was">The reading that is held; null when there is none. It is changed only while this one is held: a newer reading stays.</param>
/// <param name="Is">The folder as just read; null when it is gone.</param>
public sealed record FolderChange(string Fixture, FixtureFolder? Was, FixtureFolder? Is);
