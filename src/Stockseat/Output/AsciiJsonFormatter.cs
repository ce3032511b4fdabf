using System.Globalization;
using Serilog.Events;
using Serilog.Formatting;
using Serilog.Formatting.Compact;

namespace Stockseat.Cli.Output;

/// <summary>
/// The log's lines in printable ASCII. The compact form escapes the controls below 0x20 only; a terminal also obeys those from 0x7F to 0x9F, and marks
/// that end a line or reverse it. In JSON such characters stand in strings alone, so each may be written as its escape.
/// </summary>
/// <param name="forJournal">Whether each line begins with its priority.</param>
internal sealed class AsciiJsonFormatter(bool forJournal) : ITextFormatter
{
    private readonly CompactJsonFormatter _compact = new();

    public void Format(LogEvent logEvent, TextWriter output)
    {
        if (forJournal)
        {
            output.Write(Journal.Priority(logEvent.Level));
        }

        using var line = new StringWriter(CultureInfo.InvariantCulture);
        _compact.Format(logEvent, line);
        foreach (var chunk in line.GetStringBuilder().GetChunks())
        {
            foreach (var c in chunk.Span)
            {
                if (c < '\u007f')
                {
                    output.Write(c);
                }
                else
                {
                    output.Write(string.Create(CultureInfo.InvariantCulture, $"\\u{(int)c:x4}"));
                }
            }
        }
    }
}
