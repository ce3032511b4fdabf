using Stockseat.Service.Pages;

namespace Stockseat.Service.Tests.Pages;

public sealed class AgeTextTests
{
    [Theory]
    [InlineData(-5, "0 s")]
    [InlineData(59.9, "59 s")]
    [InlineData(60, "1 min")]
    [InlineData(3599, "59 min")]
    [InlineData(3600, "1 h")]
    [InlineData(12_059, "3 h 20 min")]
    [InlineData(172_799, "47 h 59 min")]
    [InlineData(172_800, "2 days")]
    public void An_age_is_never_rounded_up(double seconds, string said) => Assert.Equal(said, AgeText.Of(TimeSpan.FromSeconds(seconds)));
}
