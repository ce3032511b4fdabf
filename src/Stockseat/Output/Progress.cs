using System.Globalization;

namespace Stockseat.Cli.Output;

/// <summary>Tells on a terminal, on stderr, how far something is that takes longer than a second.</summary>
/// <param name="time">The clock.</param>
/// <param name="terminal">Where it is told; null: nowhere.</param>
internal sealed class Progress(TimeProvider time, TextWriter? terminal)
{
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(1);

    private long _told = time.GetTimestamp();
    private bool _any;

    /// <summary>One that tells when stderr is a terminal.</summary>
    public static Progress OnTerminal() => new(TimeProvider.System, Console.IsErrorRedirected ? null : Console.Error);

    /// <summary>Tells it when a second is over.</summary>
    public void Tell(long entries, long serial)
    {
        if (terminal is not null && time.GetElapsedTime(_told) >= Every)
        {
            (_told, _any) = (time.GetTimestamp(), true);
            terminal.Write(string.Create(CultureInfo.InvariantCulture, $"\r{entries} entries, at serial {serial} "));
        }
    }

    /// <summary>Ends its line.</summary>
    public void End()
    {
        if (_any)
        {
            terminal!.WriteLine();
        }
    }
}
