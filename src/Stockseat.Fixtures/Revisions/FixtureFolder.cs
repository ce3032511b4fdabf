using System.Globalization;

namespace Stockseat.Fixtures.Revisions;

/// <summary>The folder of one fixture, completely read.</summary>
/// <param name="Fixture">The name of the fixture, which is the name of the folder.</param>
/// <param name="Files">Its revision files, in the order of their numbers.</param>
/// <param name="Faults">The faults of the folder itself: files that can't belong to a revision.</param>
public sealed record FixtureFolder(string Fixture, IReadOnlyList<RevisionFile> Files, IReadOnlyList<string> Faults)
{
    /// <summary>Why the folder could not be read again; its files are then as they were read before. Null: it was read.</summary>
    public string? NotRead { get; init; }

    /// <summary>The faults of the folder and of its files.</summary>
    public IEnumerable<string> AllFaults => NotRead is { } fault ? FileFaults.Prepend(fault) : FileFaults;

    /// <summary>The faults of its files.</summary>
    public IEnumerable<string> FileFaults => Reading.Faults.First(Fixture, [.. Faults, .. Files.SelectMany(f => f.Reading.Faults)]);

    /// <summary>The file with a given number.</summary>
    public RevisionFile? Find(int number) => Files.FirstOrDefault(f => f.Number == number);

    /// <summary>Prepares the revisions that may be adopted: those that are not below the number in force.</summary>
    /// <param name="inForce">The number in force; null when there is none.</param>
    public FixtureFolder Prepare(int? inForce)
    {
        foreach (var file in Files.Where(f => !(f.Number < inForce)))
        {
            file.Reading.Revision?.Prepare();
        }

        return this;
    }

    /// <summary>Whether both were read from the same bytes.</summary>
    public bool SameAs(FixtureFolder? other) => other is not null
        && NotRead == other.NotRead
        && Files.Count == other.Files.Count
        && Files.Zip(other.Files).All(pair => pair.First.SameAs(pair.Second))
        && Faults.SequenceEqual(other.Faults, StringComparer.Ordinal);

    /// <summary>Reads the folder of one fixture; null when there is no such folder.</summary>
    /// <param name="fixtures">The folder of all fixtures.</param>
    /// <param name="fixture">The fixture's name.</param>
    /// <param name="known">Earlier readings of the folder: a file with the same bytes is not read again, its reading is taken from there.</param>
    public static FixtureFolder? Read(string fixtures, string fixture, params ReadOnlySpan<FixtureFolder?> known)
    {
        var folder = Path.Combine(fixtures, fixture);
        if (!RevisionReader.IsName(fixture) || !Directory.Exists(folder))
        {
            return null;
        }

        string[] paths;
        try
        {
            paths = Directory.GetFileSystemEntries(folder, "*.json"); // Entries of every kind: one that is not a file is a fault of its number.
        }
        catch (DirectoryNotFoundException)
        {
            return null; // It disappeared while it was being read.
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new(fixture, [], [$"{folder}: can't be read: {e.Message}"]);
        }

        var (files, faults) = (new SortedDictionary<int, RevisionFile>(), new List<string>());
        foreach (var path in paths.Order(StringComparer.Ordinal))
        {
            var name = Path.GetFileNameWithoutExtension(path);
            if (name.Length < 5 || name[0] != 'r' || !int.TryParse(name.AsSpan(1), NumberStyles.None, CultureInfo.InvariantCulture, out var number)
                || number is < 1 or > RevisionReader.MaxNumber || Path.GetFileName(path) != RevisionFile.NameOf(number))
            {
                faults.Add($"{path}: a revision's file is named r0001.json, r0002.json and so on; rename it or move it away");
                continue;
            }

            files[number] = RevisionFile.Read(path, fixture, number, known);
        }

        return new(fixture, [.. files.Values], Reading.Faults.First(folder, faults));
    }

    /// <summary>The names of the folders that may be fixtures, sorted; empty when the folder of all fixtures does not exist.</summary>
    /// <param name="fixtures">The folder of all fixtures.</param>
    public static IReadOnlyList<string> Names(string fixtures)
    {
        try
        {
            return Directory.Exists(fixtures)
                ? [.. Directory.EnumerateDirectories(fixtures).Select(f => Path.GetFileName(f)).Where(RevisionReader.IsName).Order(StringComparer.Ordinal)]
                : [];
        }
        catch (DirectoryNotFoundException)
        {
            return []; // It disappeared while it was being read.
        }
    }

    /// <summary>Reads all fixtures' folders.</summary>
    /// <param name="fixtures">The folder of all fixtures.</param>
    public static IReadOnlyList<FixtureFolder> ReadAll(string fixtures) =>
        [.. Names(fixtures).Select(name => Read(fixtures, name)).OfType<FixtureFolder>()];
}
