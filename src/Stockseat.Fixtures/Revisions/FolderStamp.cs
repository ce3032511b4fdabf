using System.IO.Enumeration;

namespace Stockseat.Fixtures.Revisions;

/// <summary>
/// What the file system says about a fixture's folder without opening a file. It is cheap to take; as long as it stays the same, the files are most likely
/// unchanged.
/// </summary>
public sealed class FolderStamp
{
    private static readonly EnumerationOptions All = new() { AttributesToSkip = 0, IgnoreInaccessible = false };

    private readonly List<File> _files = [];

    private FolderStamp()
    {
    }

    private readonly record struct File(string Name, long Length, DateTimeOffset Changed);

    /// <summary>Takes the stamp; null when the folder can't be listed, or contains links: a link says nothing about the file that it leads to.</summary>
    /// <param name="fixtures">The folder of all fixtures.</param>
    /// <param name="fixture">The fixture's name.</param>
    public static FolderStamp? Take(string fixtures, string fixture)
    {
        var stamp = new FolderStamp();
        var links = false;
        try
        {
            var entries = new FileSystemEnumerable<File>(
                Path.Combine(fixtures, fixture),
                (ref FileSystemEntry e) =>
                {
                    links |= (e.Attributes & FileAttributes.ReparsePoint) != 0;
                    return new(e.FileName.ToString(), e.Length, e.LastWriteTimeUtc);
                },
                All)
            {
                ShouldIncludePredicate = (ref FileSystemEntry e) => e.FileName.EndsWith(".json", StringComparison.OrdinalIgnoreCase),
            };
            stamp._files.AddRange(entries);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }

        return links ? null : stamp;
    }

    /// <summary>Whether nothing that the stamps show has changed between the two.</summary>
    public bool SameAs(FolderStamp? other) => other is not null && _files.SequenceEqual(other._files);
}
