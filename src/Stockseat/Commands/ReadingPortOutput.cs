using System.Globalization;
using System.Text.Json.Nodes;
using Stockseat.Cli.Output;
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

        Plain.Table(["reading port", "gauge", "fixture", "endpoint", "state", "since", .. Counted, "not used", "last cause"], ports.Select(p => (IReadOnlyList<string>)
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

    /// <summary>Adds those of a fixture to it.</summary>
    public static JsonObject With(this JsonObject fixture, IEnumerable<ReadingPort> ports)
    {
        var of = Json.Array(ports, Of);
        if (of.Count > 0)
        {
            fixture["ports"] = of;
        }

        return fixture;
    }

    private static JsonObject Of(ReadingPort port)
    {
        var value = new JsonObject
        {
            ["name"] = port.Name,
            ["gauge"] = port.Gauge,
            ["endpoint"] = port.Endpoint,
            ["state"] = State(port.State),
            ["since"] = port.Since,
            ["counts"] = new JsonObject(port.Counts.OrderBy(c => c.Key, StringComparer.Ordinal).Select(c => KeyValuePair.Create(c.Key, (JsonNode?)JsonValue.Create(c.Value)))),
        };
        if (port.LastCause.Length > 0)
        {
            value["lastCause"] = port.LastCause;
        }

        return value;
    }

    private static string State(ReadingPortState state) => state switch
    {
        ReadingPortState.Listening => "listening",
        ReadingPortState.Connected => "connected",
        ReadingPortState.Connecting => "connecting",
        _ => "unknown",
    };
}
