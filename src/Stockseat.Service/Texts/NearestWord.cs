namespace Stockseat.Service.Texts;

/// <summary>The known word that somebody most likely meant when a word is not known.</summary>
public static class NearestWord
{
    /// <summary>How many letters in a row have to be right for the beginning of a word to count as the word.</summary>
    private const int LeastBeginning = 3;

    /// <summary>More typing mistakes than this and it is another word.</summary>
    private const int MostMistakes = 2;

    /// <summary>The end of a message, such as "; did you mean 'fixture'?"; empty when no known word is near.</summary>
    /// <param name="typed">What was typed.</param>
    /// <param name="known">The words that are known.</param>
    public static string Hint(string typed, IEnumerable<string> known) =>
        Of(typed, known) is { Count: > 0 } near ? $"; did you mean {string.Join(" or ", near.Select(w => $"'{w}'"))}?" : "";

    /// <summary>The known words that are nearest to what was typed; none when all are too far away, or when many are equally near.</summary>
    /// <param name="typed">What was typed.</param>
    /// <param name="known">The words that are known.</param>
    public static IReadOnlyList<string> Of(string typed, IEnumerable<string> known)
    {
        const int Most = 3;
        var limit = Math.Min(MostMistakes, typed.TrimStart('-').Length / 3);
        var words = known.Distinct().Select(w => (Word: w, Mistakes: Mistakes(typed, w))).Where(w => w.Mistakes <= limit).ToList();
        if (words.Count == 0)
        {
            words = [.. known.Distinct().Where(w => IsBeginning(typed, w)).Select(w => (w, 0))];
        }

        var near = words.Where(w => w.Mistakes == words.Min(m => m.Mistakes)).Select(w => w.Word).ToList();
        return near.Count <= Most ? near : [];
    }

    private static bool IsBeginning(string typed, string word) =>
        typed.TrimStart('-').Length >= LeastBeginning && word.StartsWith(typed, StringComparison.OrdinalIgnoreCase);

    /// <summary>How many letters are missing, added, wrong or exchanged with their neighbour, capitals or not.</summary>
    private static int Mistakes(string typed, string word)
    {
        if (Math.Abs(typed.Length - word.Length) > MostMistakes)
        {
            return int.MaxValue;
        }

        var (a, b) = (typed.ToLowerInvariant(), word.ToLowerInvariant());
        var cost = new int[a.Length + 1, b.Length + 1];
        for (var i = 0; i <= a.Length; i++)
        {
            for (var j = 0; j <= b.Length; j++)
            {
                cost[i, j] = i == 0 ? j : j == 0 ? i : Math.Min(
                    Math.Min(cost[i - 1, j], cost[i, j - 1]) + 1,
                    cost[i - 1, j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1));
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                {
                    cost[i, j] = Math.Min(cost[i, j], cost[i - 2, j - 2] + 1);
                }
            }
        }

        return cost[a.Length, b.Length];
    }
}
