using System.Collections.ObjectModel;
using System.Globalization;

namespace Stockseat.Fixtures.Revisions;

/// <summary>The result of reading one revision: the revision, or all its faults.</summary>
/// <param name="Revision">The revision; null when there is a fault.</param>
/// <param name="Faults">The faults; empty when there is a revision.</param>
public sealed record RevisionReading(Revision? Revision, IReadOnlyList<string> Faults)
{
    private readonly int? _count;

    /// <summary>How many faults there are, including those that the last of <see cref="Faults"/> only counts.</summary>
    public int FaultCount
    {
        get => _count ?? Faults.Count;
        init => _count = value;
    }

    /// <summary>The faults for a message of one line; when that would be too long, it ends with how many more there are.</summary>
    /// <param name="fixture">The fixture's name.</param>
    /// <param name="number">The revision's number.</param>
    public string FaultsInLine(string fixture, int number)
    {
        const int Longest = 1500;
        var length = 0;
        var told = Faults.TakeWhile((f, i) => i < Reading.Faults.Most && ((length += f.Length) <= Longest || i == 0)).ToArray();
        var more = FaultCount - told.Length;
        return string.Join("; ", told) + (more == 0 ? "" : string.Create(
            CultureInfo.InvariantCulture, $"; and {more} more fault{(more == 1 ? "" : "s")}; stockseat fixture check {fixture} {number} lists them"));
    }

    /// <summary>Its quantities by path, each as the file wrote it; empty when it was read from resolved values.</summary>
    public IReadOnlyDictionary<string, string> Written { get; init; } = ReadOnlyDictionary<string, string>.Empty;

    /// <summary>The SI units of its quantities, by path: m, rad, kg and others.</summary>
    public IReadOnlyDictionary<string, string> Units { get; init; } = ReadOnlyDictionary<string, string>.Empty;
}
