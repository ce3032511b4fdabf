using System.Globalization;

namespace Stockseat.Cli.Output;

/// <summary>Shows on a terminal, on stderr, the progress of work that takes longer than a second.</summary>
/// <param name="time">The clock.</param>
/// <param name="terminal">Where it is shown; null: nowhere.</param>
internal sealed class Progress(TimeProvider time, TextWriter? terminal)
{
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(1);

    private long _told = time.GetTimestamp();
    private bool _any;

    /// <summary>One that shows progress only when stderr is a terminal.</summary>
    public static Progress OnTerminal() => new(TimeProvider.System, Console.IsErrorRedirected ? null : Console.Error);

    /// <summary>Shows it when a second has passed.</summary>
    public void Tell(long entries, long serial)
    {
        if (terminal is not null && time.GetElapsedTime(_told) >= Every)
        {
            (_told, _any) = (time.GetTimestamp(), true);
            terminal.Write(string.Create(CultureInfo.InvariantCulture, $"\r{entries} entries, at serial {serial} "));
        }
    }

    /// <summary>Ends the line.</summary>
    public void End()
    {
        if (_any)
        {
            terminal!.WriteLine();
        }
    }
}
