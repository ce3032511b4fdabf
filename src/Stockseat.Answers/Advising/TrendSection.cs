namespace Stockseat.Answers.Advising;

/// <summary>Consecutive rechecks of one revision; an adoption begins another section.</summary>
/// <param name="Revision">The revision.</param>
/// <param name="First">The index of its first recheck among all of them, from 0.</param>
/// <param name="Count">How many rechecks it has, 1 or more.</param>
/// <param name="Along">The control limits of the misses along; null when there are too few rechecks.</param>
/// <param name="Across">The same across.</param>
public sealed record TrendSection(int Revision, int First, int Count, IndividualsLimits? Along, IndividualsLimits? Across)
{
    /// <summary>The sections of rechecks in the order of time.</summary>
    /// <param name="rechecks">The revision of each, and its miss along and across, in metres.</param>
    public static IReadOnlyList<TrendSection> Of(IReadOnlyList<(int Revision, double Along, double Across)> rechecks)
    {
        var sections = new List<TrendSection>();
        for (int first = 0, end; first < rechecks.Count; first = end)
        {
            end = first + 1;
            while (end < rechecks.Count && rechecks[end].Revision == rechecks[first].Revision)
            {
                end++;
            }

            var own = rechecks.Skip(first).Take(end - first).ToList();
            sections.Add(new(
                own[0].Revision, first, own.Count, IndividualsLimits.Of([.. own.Select(r => r.Along)]), IndividualsLimits.Of([.. own.Select(r => r.Across)])));
        }

        return sections;
    }
}
