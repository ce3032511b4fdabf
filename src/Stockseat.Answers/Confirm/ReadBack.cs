using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;

namespace Stockseat.Answers.Confirm;

/// <summary>Whether the numbers that were read back show that a controller has the whole shift: every component that is not zero of one triple.</summary>
public static class ReadBack
{
    private static readonly string[][] Triples = [["bx", "by", "bz"], ["ox", "oy", "oz"], ["x", "y", "z"]];

    /// <summary>The components that are lacking, of the triple of which most was read back; none when one triple is complete.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="read">The names of the numbers that were read back.</param>
    public static IReadOnlyList<string> Lacking(ServedBody answer, IEnumerable<string> read)
    {
        var names = read.ToHashSet(StringComparer.Ordinal);
        return Triples.OrderByDescending(t => t.Count(names.Contains)).Select(t => Lacking(answer, t, names)).MinBy(l => l.Count == 0 ? 0 : 1)!;
    }

    /// <summary>Of a triple that is all zero one component has to be read back: else nothing was.</summary>
    private static IReadOnlyList<string> Lacking(ServedBody answer, string[] triple, HashSet<string> names)
    {
        var wanted = triple.Where(n => !IsZero(answer, n)).ToArray();
        return wanted.Length > 0 ? [.. wanted.Where(n => !names.Contains(n))] : triple.Any(names.Contains) ? [] : triple;
    }

    /// <summary>As it was served.</summary>
    private static bool IsZero(ServedBody answer, string name) =>
        answer.TryNumber(name, out var value) && FixedPoint.Scale(value, answer.Decimals + answer.Exponent(name)) == 0;
}
