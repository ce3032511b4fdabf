using Stockseat.Fixtures.Revisions;

namespace Stockseat.Service.Watching;

/// <summary>The folders on the disk.</summary>
/// <param name="fixtures">The folder of all fixtures.</param>
public sealed class FoldersOnDisk(string fixtures) : IFolders
{
    /// <inheritdoc/>
    public IReadOnlyList<string> Names() => FixtureFolder.Names(fixtures);

    /// <inheritdoc/>
    public FolderStamp? Stamp(string fixture) => FolderStamp.Take(fixtures, fixture);

    /// <inheritdoc/>
    public FixtureFolder? Read(string fixture, params ReadOnlySpan<FixtureFolder?> known) => FixtureFolder.Read(fixtures, fixture, known);
}
