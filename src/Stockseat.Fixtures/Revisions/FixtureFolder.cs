using System.Globalization;
using System.Security.Cryptography;

namespace Stockseat.Fixtures.Revisions;

/// <summary>The folder of one fixture, read whole.</summary>
/// <param name="Fixture">The fixture's name: the folder's.</param>
/// <param name="Files">Its revision files, in the order of their numbers.</param>
/// <param name="Faults">What is wrong with the folder itself: files that no revision can have.</param>
public sealed record FixtureFolder(string Fixture, IReadOnlyList<RevisionFile> Files, IReadOnlyList<string> Faults)
{
    private const long LongestFile = 1 << 20;

    /// <summary>The file of a number.</summary>
    public RevisionFile? Find(int number) => Files.FirstOrDefault(f => f.Number == number);

    /// <summary>Reads one fixture's folder; null when it is not there.</summary>
    /// <param name="fixtures">The folder of all fixtures.</param>
    /// <param name="fixture">The fixture's name.</param>
    public static FixtureFolder? Read(string fixtures, string fixture)
    {
        var folder = Path.Combine(fixtures, fixture);
        if (!RevisionReader.IsName(fixture) || !Directory.Exists(folder))
        {
            return null;
        }

        string[] paths;
        try
        {
            paths = Directory.GetFiles(folder, "*.json");
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
                || number is < 1 or > RevisionReader.MaxNumber || name != $"r{number:0000}")
            {
                faults.Add($"{path}: a revision's file is named r0001.json, r0002.json and so on; rename it or move it away");
                continue;
            }

            files[number] = ReadFile(path, fixture, number);
        }

        return new(fixture, [.. files.Values], faults);
    }

    /// <summary>Reads all fixtures' folders.</summary>
    /// <param name="fixtures">The folder of all fixtures.</param>
    public static IReadOnlyList<FixtureFolder> ReadAll(string fixtures) =>
        Directory.Exists(fixtures)
            ? [.. Directory.EnumerateDirectories(fixtures).Select(Path.GetFileName).Order(StringComparer.Ordinal)
                .Select(name => Read(fixtures, name!)).OfType<FixtureFolder>()]
            : [];

    private static RevisionFile ReadFile(string path, string fixture, int number)
    {
        try
        {
            var length = new FileInfo(path).Length;
            if (length > LongestFile)
            {
                return new(number, path, "", new(null, [$"{path}: has {length} bytes; at most {LongestFile} were expected"]));
            }

            var bytes = File.ReadAllBytes(path);
            return new(number, path, Convert.ToHexStringLower(SHA256.HashData(bytes)), RevisionReader.Read(bytes, path, fixture, number));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new(number, path, "", new(null, [$"{path}: can't be read: {e.Message}"]));
        }
    }
}
