using Stockseat.Fixtures.Revisions;

namespace Stockseat.Service.Watching;

/// <summary>Where the fixtures' folders are: the seam between the watch and the disk.</summary>
public interface IFolders
{
    /// <summary>The names of those that are there.</summary>
    /// <exception cref="IOException">They can't be listed.</exception>
    /// <exception cref="UnauthorizedAccessException">They may not be listed.</exception>
    IReadOnlyList<string> Names();

    /// <summary>What shows of one without reading it; null when that says nothing.</summary>
    FolderStamp? Stamp(string fixture);

    /// <summary>Reads one whole; null when it is not there.</summary>
    FixtureFolder? Read(string fixture, params ReadOnlySpan<FixtureFolder?> known);
}
