using System.Text.RegularExpressions;

namespace Stockseat.Reliability.Support;

/// <summary>One system call: the lines of the log on which it began and ended, and what was printed about it.</summary>
internal sealed record SystemCall(int Begun, int Ended, string Name, string Text, string Result);

/// <summary>strace around the service. strace is the service's child, not its parent: the service keeps its process, signals and exit code.</summary>
internal static partial class Strace
{
    public static string[] Trace(string log, string calls) => [.. Common(log, 8192), "-e", $"trace={calls}"];

    /// <summary>Injects faults into the calls named: <c>error=EIO:when=3</c> and the like. It counts per thread.</summary>
    /// <param name="log">Where it writes.</param>
    /// <param name="calls">The calls.</param>
    /// <param name="fault">The fault.</param>
    /// <param name="file">Only in calls on this file; null: on any.</param>
    public static string[] Inject(string log, string calls, string fault, string? file = null) =>
        [.. Common(log, 16), "-e", $"trace={calls}", "-e", $"inject={calls}:{fault}", .. file is null ? Array.Empty<string>() : ["-P", file]];

    /// <summary>The whole log, once the process has ended and strace has said so.</summary>
    public static async Task<string[]> Read(string log, int process)
    {
        var lines = Array.Empty<string>();
        await Deadline.Until(async () =>
        {
            lines = await File.ReadAllLinesAsync(log);
            return lines.Any(l => l.StartsWith($"{process} ", StringComparison.Ordinal) && l.Contains(" +++ ", StringComparison.Ordinal));
        }, "the end of strace's log");
        return lines;
    }

    /// <summary>How many calls got their fault.</summary>
    public static int Injected(IEnumerable<string> log) =>
        log.Count(l => l.EndsWith("(INJECTED)", StringComparison.Ordinal) || l.EndsWith("(DELAYED)", StringComparison.Ordinal));

    /// <summary>
    /// The calls of a log, in the order in which they ended. A call takes two lines when another thread's call was printed in the meantime.
    /// </summary>
    public static IReadOnlyList<SystemCall> Calls(IReadOnlyList<string> log)
    {
        var calls = new List<SystemCall>();
        var unfinished = new Dictionary<string, (int Line, string Text)>();
        for (var i = 0; i < log.Count; i++)
        {
            var text = log[i];
            if (Unfinished().Match(text) is { Success: true } begun)
            {
                unfinished[begun.Groups["thread"].Value] = (i, begun.Groups["text"].Value);
            }
            else if (Resumed().Match(text) is { Success: true } rest)
            {
                Assert.True(unfinished.Remove(rest.Groups["thread"].Value, out var first), $"resumed, but never begun: {text}");
                Add(first.Line, i, first.Text + rest.Groups["text"].Value);
            }
            else if (Whole().Match(text) is { Success: true } whole)
            {
                Add(i, i, whole.Groups["text"].Value);
            }
        }

        return calls;

        void Add(int from, int to, string text)
        {
            var result = Result().Match(text);
            calls.Add(new(from, to, text[..text.IndexOf('(', StringComparison.Ordinal)], text, result.Success ? result.Groups["result"].Value : ""));
        }
    }

    private static string[] Common(string log, int text) => ["strace", "-D", "-f", "--seccomp-bpf", "-y", "-tt", "-s", $"{text}", "-o", log];

    [GeneratedRegex(@"^(?<thread>\d+) +[\d:.]+ (?<text>\w+\(.*) <unfinished \.\.\.>$")]
    private static partial Regex Unfinished();

    [GeneratedRegex(@"^(?<thread>\d+) +[\d:.]+ <\.\.\. \w+ resumed>(?<text>.*)$")]
    private static partial Regex Resumed();

    [GeneratedRegex(@"^(?<thread>\d+) +[\d:.]+ (?<text>\w+\(.*)$")]
    private static partial Regex Whole();

    [GeneratedRegex(@"\) += (?<result>-?\d+|\?)[^""]*$")]
    private static partial Regex Result();
}
