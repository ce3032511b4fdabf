using System.Text.RegularExpressions;

namespace Stockseat.EndToEnd.Documents;

/// <summary>Compares what a document shows with what was printed.</summary>
/// <remarks>
/// Instants, ages, digests, hashes, the host, the process and a caller's port differ from run to run, and so does how wide they make a column; all else
/// has to be the same.
/// A line <c>…</c> of a document stands for any lines, a <c>…</c> at the end of a line for the rest of it.
/// </remarks>
internal static partial class Printed
{
    private const string Left = "…";

    /// <summary>What differs, in words; null: nothing.</summary>
    public static string? Difference(IReadOnlyList<string> shown, IReadOnlyList<string> printed)
    {
        var (wanted, found) = (shown.Select(Plain).ToArray(), printed.Select(Plain).ToArray());
        var (line, at, leftOut) = (0, 0, false);
        for (; line < wanted.Length; line++)
        {
            if (wanted[line] == Left)
            {
                leftOut = true;
                continue;
            }

            var from = at;
            at = leftOut ? Array.FindIndex(found, at, f => Same(wanted[line], f)) : at;
            if (at < 0 || at >= found.Length || !Same(wanted[line], found[at]))
            {
                return $"the document shows\n  {shown[line]}\nand this was printed\n  {string.Join("\n  ", printed.Skip(from))}";
            }

            (at, leftOut) = (at + 1, false);
        }

        return leftOut || at == found.Length ? null : $"the document leaves out\n  {string.Join("\n  ", printed.Skip(at))}";
    }

    /// <summary>The lines of what was printed, without empty ones at the end.</summary>
    public static IReadOnlyList<string> Lines(string text) => [.. text.TrimEnd().Split('\n').Select(l => l.TrimEnd())];

    private static bool Same(string wanted, string found) =>
        wanted.EndsWith(Left, StringComparison.Ordinal) ? found.StartsWith(wanted[..^1], StringComparison.Ordinal) : wanted == found;

    private static string Plain(string line)
    {
        line = Instant().Replace(line, "INSTANT");
        line = Age().Replace(line, "age$1S");
        line = Digest().Replace(line, "DIGEST");
        line = Caller().Replace(line, "127.0.0.1:PORT");
        line = Process().Replace(line, "on HOST, process N,");
        return Spaces().Replace(line, " ").Trim();
    }

    [GeneratedRegex(@"\b\d{4}-\d\d-\d\d([T ]\d\d:\d\d(:\d\d(\.\d+)?)?)?(Z| UTC|[+-]\d\d:\d\d)?|\b\d\d:\d\d:\d\d(\.\d+)?( UTC)?")]
    private static partial Regex Instant();

    [GeneratedRegex(@"\bage([= ])[\d.]+|\b[\d.]+()(?= s old)")]
    private static partial Regex Age();

    [GeneratedRegex(@"\b[0-9a-f]{12,64}\b|\b[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}\b")]
    private static partial Regex Digest();

    [GeneratedRegex(@"127\.0\.0\.1:[3-6]\d{4}\b")]
    private static partial Regex Caller();

    [GeneratedRegex(@"\bon \S+, process \d+,")]
    private static partial Regex Process();

    [GeneratedRegex(@"\s+|-{3,}|─+")]
    private static partial Regex Spaces();
}
