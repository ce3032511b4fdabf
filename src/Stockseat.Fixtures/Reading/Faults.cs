using System.Globalization;

namespace Stockseat.Fixtures.Reading;

/// <summary>
/// The faults of one file: each names the file, the path in the file, the value and what was expected. The first <see cref="Most"/> are kept, the others only
/// counted, and a message that is longer than anybody reads is cut: the faults of a file must not be larger than the file.
/// </summary>
/// <param name="file">The file, as its reader would name it.</param>
public sealed class Faults(string file)
{
    /// <summary>How many faults are kept.</summary>
    public const int Most = 50;

    private const int LongestPath = 120;
    private const int LongestMessage = 500;

    private readonly List<string> _first = [];

    /// <summary>The faults in the order in which they were found; the last says how many more there are.</summary>
    public IReadOnlyList<string> All => Count == _first.Count ? _first : [.. _first, More(file, Count - _first.Count)];

    /// <summary>How many there are, including those that are only counted.</summary>
    public int Count { get; private set; }

    /// <summary>Whether there are none.</summary>
    public bool None => Count == 0;

    /// <summary>Adds a fault.</summary>
    /// <param name="path">The path in the file, for example <c>taught.position.x</c>; empty for the whole file.</param>
    /// <param name="message">What was found, what was expected, what to do.</param>
    public void Add(string path, string message)
    {
        if (++Count <= Most)
        {
            var said = Cut(message, LongestMessage);
            _first.Add(path.Length == 0 ? $"{file}: {said}" : $"{file}: {Cut(path, LongestPath)}: {said}");
        }
    }

    /// <summary>The first of many faults, and how many more there are.</summary>
    /// <param name="of">The file or folder that has the faults.</param>
    /// <param name="faults">The faults.</param>
    public static IReadOnlyList<string> First(string of, IReadOnlyCollection<string> faults) =>
        faults.Count <= Most ? [.. faults] : [.. faults.Take(Most), More(of, faults.Count - Most)];

    private static string More(string of, int count) => string.Create(CultureInfo.InvariantCulture, $"{of}: and {count} more fault{(count == 1 ? "" : "s")}");

    private static string Cut(string text, int longest) =>
        text.Length <= longest ? text : $"{text.AsSpan(0, char.IsHighSurrogate(text[longest - 1]) ? longest - 1 : longest)}…";
}
