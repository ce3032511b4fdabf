using System.Globalization;
using System.Text.RegularExpressions;
using Stockseat.Service.Hosting;

namespace Stockseat.Service.Tests.Hosting;

public class StopLimitsTests
{
    [Fact]
    public void Together_the_limits_keep_what_is_promised() =>
        Assert.True(StopLimits.Requests + StopLimits.Breaking + StopLimits.LastEntry + StopLimits.Log < StopLimits.Promised,
            "a stop may take longer than promised");

    [Fact]
    public void The_supervisor_waits_longer_than_a_stop_takes()
    {
        var unit = File.ReadAllText(Path.Combine(Repository.Root, "install", "linux", "stockseat.service"));
        var seconds = int.Parse(Regex.Match(unit, @"^TimeoutStopSec=(\d+)$", RegexOptions.Multiline).Groups[1].Value, CultureInfo.InvariantCulture);

        Assert.True(TimeSpan.FromSeconds(seconds) > StopLimits.Promised, $"TimeoutStopSec={seconds} kills the service before its stop is complete");
    }
}
