using Stockseat.Service.Gauges;

namespace Stockseat.Service.Tests.Gauges;

public class BackoffTests
{
    [Theory]
    [InlineData(0, 0.5)]
    [InlineData(1, 1)]
    [InlineData(5, 16)]
    [InlineData(6, 30)]
    [InlineData(31, 30)]
    [InlineData(64, 30)]
    [InlineData(5_000, 30)]
    [InlineData(int.MaxValue, 30)]
    public void The_wait_doubles_up_to_half_a_minute_however_many_attempts_there_were(int attempt, double seconds)
    {
        Assert.Equal(TimeSpan.FromSeconds(seconds), Backoff.Before(attempt, 0));
        Assert.Equal(TimeSpan.FromSeconds(seconds / 2), Backoff.Before(attempt, 1));
    }
}
