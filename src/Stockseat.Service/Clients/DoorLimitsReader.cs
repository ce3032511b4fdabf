using System.Globalization;
using Stockseat.Fixtures.Reading;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Clients;

/// <summary>Reads the limits of connections.</summary>
internal static class DoorLimitsReader
{
    public static DoorLimits Read(SettingValues values, Section? section)
    {
        var usual = new DoorLimits();
        int Count(string key, int otherwise)
        {
            var count = section?.Whole(key, 1, 100_000, required: false);
            values.Sources.Add(new($"Limits:{key}", (count ?? otherwise).ToString(CultureInfo.InvariantCulture), count is null ? "default" : "file"));
            return count ?? otherwise;
        }

        TimeSpan Time(string key, TimeSpan otherwise)
        {
            var text = section is not null && section.Has(key) ? section.Text(key) : null;
            var shown = text ?? otherwise.ToString("c", CultureInfo.InvariantCulture);
            values.Sources.Add(new($"Limits:{key}", shown, text is null ? "default" : "file"));
            return text is null ? otherwise : values.Span(section!.At(key), text);
        }

        var limits = new DoorLimits
        {
            Connections = Count("Connections", usual.Connections),
            Pipelined = Count("Pipelined", usual.Pipelined),
            Handshake = Time("Handshake", usual.Handshake),
            Handshakes = Count("Handshakes", usual.Handshakes),
            FirstLine = Time("FirstLine", usual.FirstLine),
            Line = Time("Line", usual.Line),
            Idle = Time("Idle", usual.Idle),
            Reply = Time("Reply", usual.Reply),
        };
        section?.Finish();
        return limits;
    }
}
