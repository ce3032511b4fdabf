using System.Globalization;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Shapes;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

/// <summary>Shows the reading ports with the fixtures that they measure for.</summary>
internal static class ReadingPortOutput
{
    private static readonly string[] Counted = ["lines", "readings", "measurements", "refused"];

    /// <summary>A table of them; nothing when there are none.</summary>
    public static void Print(IReadOnlyCollection<ReadingPort> ports)
    {
        if (ports.Count == 0)
        {
            return;
        }

        Plain.Table(
            ["reading port", "gauge", "fixture", "endpoint", "state", "since", .. Counted, "not used", "last cause"], ports.Select(p => (IReadOnlyList<string>)
        [
            p.Name,
            p.Gauge,
            p.Fixture,
            p.Endpoint,
            State(p.State),
            p.Since,
            .. Counted.Select(c => p.Counts.GetValueOrDefault(c).ToString(CultureInfo.InvariantCulture)),
            string.Join(", ", p.Counts.Where(c => !Counted.Contains(c.Key)).OrderBy(c => c.Key, StringComparer.Ordinal).Select(c => $"{c.Key} {c.Value}")),
            p.LastCause,
        ]));
    }

    /// <summary>The same for machines; null when there are none.</summary>
    public static IReadOnlyList<ReadingPortShape>? Of(IEnumerable<ReadingPort> ports) => ports.Select(Of).ToList() is { Count: > 0 } shapes ? shapes : null;

    private static ReadingPortShape Of(ReadingPort port) => new(
        port.Name, port.Gauge, port.Endpoint, State(port.State), port.Since,
        new OrderedDictionary<string, long>(port.Counts.OrderBy(c => c.Key, StringComparer.Ordinal)), port.LastCause.Length > 0 ? port.LastCause : null);

    private static string State(ReadingPortState state) => state switch
    {
        ReadingPortState.Listening => "listening",
        ReadingPortState.Connected => "connected",
        ReadingPortState.Connecting => "connecting",
        _ => "unknown",
    };
}
