namespace Stockseat.Cli.Output;

/// <summary>Writes to stdout or stderr for a service: where nobody takes what is written it goes on without.</summary>
internal static class Patient
{
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(1);

    /// <summary>Writes a line, and waits a second at most for somebody to take it.</summary>
    public static async Task Line(TextWriter writer, string text)
    {
        // A thread that the end of the process does not wait for.
        var written = Task.Factory.StartNew(() => writer.WriteLine(text), CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
        await Task.WhenAny(written, Task.Delay(Limit, TimeProvider.System));
    }
}
