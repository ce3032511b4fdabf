namespace Stockseat.EndToEnd.Documents;

public class PrintedTests
{
    [Theory]
    [InlineData("ok serial=5", "ok serial=5")]
    [InlineData("a\n…", "a\nb\nc")]
    [InlineData("…\nc", "a\nb\nc")]
    [InlineData("a\n…\nc", "a\nb\nc")]
    [InlineData("on 2026-11-25 at 14:15:01 UTC, age=7", "on 2027-01-01 at 00:00:00 UTC, age=12")]
    [InlineData("digest 4618089bc4f9d01f", "digest 0123456789abcdef")]
    [InlineData("from 127.0.0.1:41234  ---- end", "from 127.0.0.1:50001 --- end")]
    [InlineData("the text begins…", "the text begins like this")]
    public void What_is_the_same_is_found_the_same(string shown, string printed) => Assert.Null(Difference(shown, printed));

    [Theory]
    [InlineData("ok serial=5", "ok serial=6")]
    [InlineData("a", "a\nb")]
    [InlineData("a\nb", "a")]
    [InlineData("…\nd", "a\nb\nc")]
    [InlineData("a\n…\nc", "a\nc\nd")]
    [InlineData("by=0.008213", "by=0.008214")]
    [InlineData("127.0.0.1:28610", "127.0.0.1:28611")]
    [InlineData("-0.012", "0.012")]
    public void What_differs_is_found(string shown, string printed) => Assert.NotNull(Difference(shown, printed));

    private static string? Difference(string shown, string printed) => Printed.Difference(Printed.Lines(shown), Printed.Lines(printed));
}
