namespace Stockseat.Fixtures.Reading;

/// <summary>All that is wrong with one file: each fault names the file, the path in it, the value and what was expected.</summary>
/// <param name="file">The file, as its reader would name it.</param>
public sealed class Faults(string file)
{
    private readonly List<string> _all = [];

    /// <summary>The faults in the order in which they were found.</summary>
    public IReadOnlyList<string> All => _all;

    /// <summary>Whether there are none.</summary>
    public bool None => _all.Count == 0;

    /// <summary>Adds one.</summary>
    /// <param name="path">The path in the file, for example <c>taught.position.x</c>; empty for the whole file.</param>
    /// <param name="message">What was found, what was expected, what to do.</param>
    public void Add(string path, string message) =>
        _all.Add(path.Length == 0 ? $"{file}: {message}" : $"{file}: {path}: {message}");
}
