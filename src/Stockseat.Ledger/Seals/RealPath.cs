namespace Stockseat.Ledger.Seals;

/// <summary>Where a path leads when the links in it are followed.</summary>
internal static class RealPath
{
    /// <summary>The path without links, as far as it exists.</summary>
    public static string Of(string path)
    {
        var full = Path.GetFullPath(path);
        var real = Path.GetPathRoot(full)!;
        foreach (var part in full[real.Length..].Split(Path.DirectorySeparatorChar, StringSplitOptions.RemoveEmptyEntries))
        {
            var next = Path.Combine(real, part);
            // The target of the last link may lie in a folder that is a link too.
            real = new FileInfo(next) is { LinkTarget: not null } link ? Of(link.ResolveLinkTarget(returnFinalTarget: true)!.FullName) : next;
        }

        return real;
    }

    /// <summary>Whether a file lies in a folder or below it.</summary>
    public static bool IsIn(string file, string folder) =>
        (Of(file) + Path.DirectorySeparatorChar).StartsWith(Of(folder).TrimEnd(Path.DirectorySeparatorChar) + Path.DirectorySeparatorChar, Case);

    private static StringComparison Case => OperatingSystem.IsWindows() ? StringComparison.OrdinalIgnoreCase : StringComparison.Ordinal;
}
