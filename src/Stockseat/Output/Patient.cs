namespace Stockseat.Cli.Output;

/// <summary>Writes to stdout or stderr for a service, which goes on when nobody reads what it writes.</summary>
internal static class Patient
{
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(1);

    /// <summary>Writes a line, and waits at most a second until somebody reads it.</summary>
    public static async Task Line(TextWriter writer, string text)
    {
        // A thread that the end of the process does not wait for.
        var written = Task.Factory.StartNew(() => writer.WriteLine(text), CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
        await Task.WhenAny(written, Task.Delay(Limit, TimeProvider.System));
    }
}
