using Stockseat.Fixtures.Revisions;

namespace Stockseat.Service.Watching;

/// <summary>The fixtures' folders: the boundary between the watch and the disk.</summary>
public interface IFolders
{
    /// <summary>The names of those that are there.</summary>
    /// <exception cref="IOException">They can't be listed.</exception>
    /// <exception cref="UnauthorizedAccessException">They may not be listed.</exception>
    IReadOnlyList<string> Names();

    /// <summary>What can be seen of a folder without reading it; null when that says nothing.</summary>
    FolderStamp? Stamp(string fixture);

    /// <summary>Reads a complete folder; null when it does not exist.</summary>
    FixtureFolder? Read(string fixture, params ReadOnlySpan<FixtureFolder?> known);
}
