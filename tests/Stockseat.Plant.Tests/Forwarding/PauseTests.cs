using Stockseat.Plant.Forwarding;

namespace Stockseat.Plant.Tests.Forwarding;

public class PauseTests
{
    [Theory]
    [InlineData(0, 0, 0.5)]
    [InlineData(1, 0, 1)]
    [InlineData(5, 0, 16)]
    [InlineData(6, 0, 30)]
    [InlineData(3, 1, 2)]
    [InlineData(3, 0.5, 3)]
    [InlineData(1100, 0, 30)] // where 2 to that power is no number any more
    [InlineData(int.MaxValue, 1, 15)]
    [InlineData(int.MinValue, 1, 0.25)]
    public void Wait_doubles_up_to_its_limit_and_is_spread(int failures, double chance, double seconds) =>
        Assert.Equal(TimeSpan.FromSeconds(seconds), Pause.After(failures, chance));
}
