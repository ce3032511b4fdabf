using System.Text.RegularExpressions;

namespace Stockseat.Service.Gauges;

/// <summary>
/// What the lines of a gauge look like: a regular expression that has to match the whole line, with the groups reading, unit and lot.
/// Where the expression allows it, an engine without backtracking is used first: a line that does not match then costs time in proportion to its length.
/// That engine keeps only the last capture of a group, so for a line that matches, the other engine finds, under a time limit, how many readings there are.
/// </summary>
public sealed class LinePattern
{
    private const RegexOptions Usual = RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture;

    /// <summary>The time limit for a line when the expression may backtrack without end.</summary>
    private static readonly TimeSpan Longest = TimeSpan.FromMilliseconds(10);

    /// <summary>The time limit for a line that is known to match: only an unusual expression takes long there, and a busy machine should not fail it.</summary>
    private static readonly TimeSpan LongestOfMatching = TimeSpan.FromMilliseconds(50);

    private static readonly string[] Groups = ["reading", "unit", "lot"];

    private readonly Regex? _filter;
    private readonly Regex _regex;

    private LinePattern(string text, Regex regex, Regex? filter) => (Text, _regex, _filter) = (text, regex, filter);

    /// <summary>As the configuration states it.</summary>
    public string Text { get; }

    /// <summary>Whether lines may state a unit.</summary>
    public bool HasUnit => _regex.GroupNumberFromName("unit") >= 0;

    /// <summary>Whether what does not match is found without backtracking.</summary>
    public bool Linear => _filter is not null;

    /// <summary>Compiles a pattern.</summary>
    /// <param name="text">The expression.</param>
    /// <param name="fault">What is wrong with it.</param>
    public static LinePattern? Parse(string text, out string? fault)
    {
        var whole = $@"\A(?:{text})\z";
        try
        {
            // First by itself, since a fault found only in the wrapped expression would be reported at a place that nobody wrote.
            _ = new Regex(text, Usual, Longest);
            var filter = WithoutBacktracking(whole);
            var regex = new Regex(whole, Usual, filter is null ? Longest : LongestOfMatching);
            var names = regex.GetGroupNames().Where(n => n != "0").ToList();
            fault = names.Except(Groups).FirstOrDefault() is { } other ? $"has a group {other}; {string.Join(", ", Groups)} were expected"
                : !names.Contains("reading") ? "has no group reading, such as (?<reading>[0-9]+\\.[0-9]+)"
                : null;
            return fault is null ? new LinePattern(text, regex, filter).Warmed() : null;
        }
        catch (ArgumentException e)
        {
            fault = $"is not a regular expression: {e.Message.TrimEnd('.')}";
            return null;
        }
    }

    /// <summary>Matches a line.</summary>
    /// <param name="line">The line, without white space around it.</param>
    /// <param name="found">What it says.</param>
    /// <returns>Null, or why it has no reading.</returns>
    public PortCause? Match(string line, out Found found)
    {
        // Once more when it took too long: the thread may have had to wait for others meanwhile.
        var cause = Try(line, out found);
        return cause == PortCause.PatternTimeout ? Try(line, out found) : cause;
    }

    private PortCause? Try(string line, out Found found)
    {
        found = default;
        try
        {
            if (_filter?.IsMatch(line) == false)
            {
                return PortCause.NoMatch;
            }

            var match = _regex.Match(line);
            if (!match.Success || match.Groups["reading"].Captures.Count != 1)
            {
                return PortCause.NoMatch;
            }

            found = new(match.Groups["reading"].Value, Stated(match, "unit"), Stated(match, "lot"));
            return null;
        }
        catch (RegexMatchTimeoutException)
        {
            return PortCause.PatternTimeout;
        }
    }

    /// <summary>Matches once in advance: the very first match loads and compiles the engines, which would take too long for a gauge's first line.</summary>
    private LinePattern Warmed()
    {
        foreach (var line in new[] { "92.40", "92,40 mm" })
        {
            Try(line, out _);
            Try(line, out _);
        }

        return this;
    }

    private static string? Stated(Match match, string group) => match.Groups[group] is { Success: true } g ? g.Value : null;

    /// <summary>Null when the expression needs backtracking: it has a look-around, or a reference to an earlier match.</summary>
    private static Regex? WithoutBacktracking(string text)
    {
        try
        {
            return new Regex(text, Usual | RegexOptions.NonBacktracking);
        }
        catch (NotSupportedException)
        {
            return null;
        }
    }

    /// <summary>What a line says.</summary>
    /// <param name="Reading">The number's text.</param>
    /// <param name="Unit">The unit, when the line states one.</param>
    /// <param name="Lot">The lot, when the line states one.</param>
    public readonly record struct Found(string Reading, string? Unit, string? Lot);
}
