using System.Globalization;
using System.Security.Cryptography;
using Stockseat.Fixtures.Files;

namespace Stockseat.Fixtures.Revisions;

/// <summary>One revision file as it was found.</summary>
/// <param name="Number">The number in its name.</param>
/// <param name="Path">Where it is.</param>
/// <param name="FileHash">SHA-256 of its bytes, in lower-case hexadecimal; empty when they were not read.</param>
/// <param name="Reading">The result of reading it.</param>
public sealed record RevisionFile(int Number, string Path, string FileHash, RevisionReading Reading)
{
    private const int LongestFile = 1 << 20;

    /// <summary>The name of the file of a given number.</summary>
    /// <param name="number">The revision's number.</param>
    public static string NameOf(int number) => string.Create(CultureInfo.InvariantCulture, $"r{number:0000}.json");

    /// <summary>Whether both were read from the same bytes, or could not be read for the same fault.</summary>
    internal bool SameAs(RevisionFile other) => Number == other.Number && Path == other.Path && FileHash == other.FileHash
        && (FileHash.Length > 0 || Reading.Faults.SequenceEqual(other.Reading.Faults, StringComparer.Ordinal));

    /// <summary>Reads a file: its bytes once, so that the hash belongs to exactly the bytes that were parsed.</summary>
    internal static RevisionFile Read(string path, string fixture, int number, ReadOnlySpan<FixtureFolder?> known)
    {
        try
        {
            return Of(RegularFile.Read(path, LongestFile), path, fixture, number, known);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new(number, path, "", new(null, [RegularFile.Fault(path, e)]));
        }
    }

    private static RevisionFile Of(ReadOnlyMemory<byte> bytes, string path, string fixture, int number, ReadOnlySpan<FixtureFolder?> known)
    {
        var hash = Convert.ToHexStringLower(SHA256.HashData(bytes.Span));
        foreach (var folder in known)
        {
            if (folder?.Find(number) is { } before && before.FileHash == hash && before.Path == path)
            {
                return before;
            }
        }

        return new(number, path, hash, RevisionReader.Read(bytes, path, fixture, number));
    }
}
