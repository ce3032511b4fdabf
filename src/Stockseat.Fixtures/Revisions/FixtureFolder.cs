using System.Globalization;

namespace Stockseat.Fixtures.Revisions;

/// <summary>The folder of one fixture, read whole.</summary>
/// <param name="Fixture">The fixture's name: the folder's.</param>
/// <param name="Files">Its revision files, in the order of their numbers.</param>
/// <param name="Faults">What is wrong with the folder itself: files that no revision can have.</param>
public sealed record FixtureFolder(string Fixture, IReadOnlyList<RevisionFile> Files, IReadOnlyList<string> Faults)
{
    /// <summary>Why it could not be read anew: its files are as they were read before. Null: it was read.</summary>
    public string? NotRead { get; init; }

    /// <summary>What is wrong with the folder and with its files.</summary>
    public IEnumerable<string> AllFaults => NotRead is { } fault ? FileFaults.Prepend(fault) : FileFaults;

    /// <summary>What is wrong with the files in it.</summary>
    public IEnumerable<string> FileFaults => Reading.Faults.First(Fixture, [.. Faults, .. Files.SelectMany(f => f.Reading.Faults)]);

    /// <summary>The file of a number.</summary>
    public RevisionFile? Find(int number) => Files.FirstOrDefault(f => f.Number == number);

    /// <summary>Prepares what may be adopted: what is not below the number in force.</summary>
    /// <param name="inForce">The number in force; null when none.</param>
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

    /// <summary>Reads one fixture's folder; null when it is not there.</summary>
    /// <param name="fixtures">The folder of all fixtures.</param>
    /// <param name="fixture">The fixture's name.</param>
    /// <param name="known">Earlier readings of it: what a file of the same bytes was read to is taken from them.</param>
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
            paths = Directory.GetFileSystemEntries(folder, "*.json"); // of every kind: what is no file is a fault of its number
        }
        catch (DirectoryNotFoundException)
        {
            return null; // gone since it was asked for
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

    /// <summary>The names of the folders that may be fixtures, in order; none when there is no folder of all fixtures.</summary>
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
            return []; // gone since it was asked for
        }
    }

    /// <summary>Reads all fixtures' folders.</summary>
    /// <param name="fixtures">The folder of all fixtures.</param>
    public static IReadOnlyList<FixtureFolder> ReadAll(string fixtures) =>
        [.. Names(fixtures).Select(name => Read(fixtures, name)).OfType<FixtureFolder>()];
}
