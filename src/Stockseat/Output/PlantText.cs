using System.Globalization;
using Stockseat.V1;

namespace Stockseat.Cli.Output;

/// <summary>What the list of fixtures says about the plant store.</summary>
internal static class PlantText
{
    public static IEnumerable<string> Of(PlantStore? plant)
    {
        if (plant is null)
        {
            yield break;
        }

        var waits = plant.Waiting == 0 ? "every entry is stored"
            : $"{Text(plant.Waiting)} {(plant.Waiting == 1 ? "entry waits" : "entries wait")}"
                + (plant.HasLagSeconds ? $" since {plant.LagSeconds.ToString("0", CultureInfo.InvariantCulture)} s" : "");
        yield return $"plant store {plant.Store} {(plant.Connected ? "reached" : "not reached")}, stored up to entry {Text(plant.Stored)}, {waits}";
        if (plant.Cause.Length > 0)
        {
            yield return plant.Cause;
        }

        foreach (var fault in plant.Faults)
        {
            yield return fault;
        }
    }

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);
}
