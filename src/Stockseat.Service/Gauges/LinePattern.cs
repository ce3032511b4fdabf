using System.Text.RegularExpressions;

namespace Stockseat.Service.Gauges;

/// <summary>
/// What the lines of a gauge look like: a regular expression that has to match the whole line, with the groups reading, unit and lot.
/// An engine without backtracking is asked first, where the expression allows it: what does not match costs no more than its length. It keeps
/// only the last capture of a group, so of a line that matches the other engine, under a limit of time, tells how many readings there are.
/// </summary>
public sealed class LinePattern
{
    private const RegexOptions Usual = RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture;

    /// <summary>For one line with an expression that may backtrack without end.</summary>
    private static readonly TimeSpan Longest = TimeSpan.FromMilliseconds(10);

    /// <summary>For a line of which it is known that it matches: only an odd expression takes long there, a busy machine should not.</summary>
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

    /// <summary>Compiles it.</summary>
    /// <param name="text">The expression.</param>
    /// <param name="fault">What is wrong with it.</param>
    public static LinePattern? Parse(string text, out string? fault)
    {
        var whole = $@"\A(?:{text})\z";
        try
        {
            _ = new Regex(text, Usual, Longest); // By itself first: what is wrong only when it is wrapped would be told at a place that nobody wrote.
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
            fault = $"is no regular expression: {e.Message.TrimEnd('.')}";
            return null;
        }
    }

    /// <summary>Matches a line.</summary>
    /// <param name="line">The line, without white space around it.</param>
    /// <param name="found">What it says.</param>
    /// <returns>Null, or why there is no reading in it.</returns>
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

    /// <summary>The first match of all loads and compiles the engines, which takes longer than a match may: a gauge's first line is not lost by that.</summary>
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

    /// <summary>Null when it has what only backtracking can do: a look around, a reference to what matched before.</summary>
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
