using System.CommandLine;
using Stockseat.Answers.Entries;
using Stockseat.Cli.Output;
using Stockseat.Service.Configuration;
using Stockseat.Service.Texts;

namespace Stockseat.Cli.Commands;

/// <summary>Names the gauge of the configuration that is taken to measure the diameters.</summary>
internal static class GaugeOption
{
    public static Option<string?> Make(string measured) =>
        new("--gauge") { HelpName = "G", Description = $"the gauge of the configuration that measures {measured}; without it a stated diameter is assumed" };

    /// <summary>How a diameter is measured; null when it is stated. False when the configuration has no such gauge; stderr then says so.</summary>
    public static bool TryFind(Settings settings, string? name, out DiameterFrom? from)
    {
        from = null;
        if (name is null)
        {
            return true;
        }

        if (!settings.Gauges.TryGetValue(name, out var known))
        {
            Console.Error.WriteLine(
                Plain.Text(
                    $"there is no gauge '{name}'; name one of {string.Join(", ", settings.Gauges.Keys.Order(StringComparer.Ordinal))}, or add it to Gauges in "
                        + $"the configuration{NearestWord.Hint(name, settings.Gauges.Keys)}"));
            return false;
        }

        from = new() { Gauge = name, Limits = known.Terms.Limits };
        return true;
    }
}
