using Serilog.Events;

namespace Stockseat.Cli.Output;

/// <summary>The journal of systemd: it takes a line's priority from a prefix such as "&lt;3&gt;", and gives every other line the same one.</summary>
internal static class Journal
{
    /// <summary>Before a line that says why the program can't run.</summary>
    public static string Fault => IsStandardError ? Priority(LogEventLevel.Error) : "";

    /// <summary>Whether standard error is the journal: systemd names the stream, and a child whose stderr goes elsewhere inherits the name.</summary>
    public static bool IsStandardError { get; } =
        OperatingSystem.IsLinux() && Is(Environment.GetEnvironmentVariable("JOURNAL_STREAM"), Target("/proc/self/fd/2"));

    /// <summary>The prefix of a line, by the priorities of syslog.</summary>
    public static string Priority(LogEventLevel level) => level switch
    {
        LogEventLevel.Fatal => "<2>",
        LogEventLevel.Error => "<3>",
        LogEventLevel.Warning => "<4>",
        _ => "<6>",
    };

    /// <param name="stream">JOURNAL_STREAM: device and inode of the stream, in decimal.</param>
    /// <param name="target">What the descriptor is.</param>
    private static bool Is(string? stream, string? target) =>
        stream?.Split(':') is [_, var inode] && target == $"socket:[{inode}]";

    private static string? Target(string descriptor)
    {
        try
        {
            return new FileInfo(descriptor).LinkTarget;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}
