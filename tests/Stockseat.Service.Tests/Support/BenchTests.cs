using Serilog.Events;
using Serilog.Parsing;

namespace Stockseat.Service.Tests.Support;

/// <summary>The helpers are tested too: a check that can't fail proves nothing.</summary>
public sealed class BenchTests
{
    [Theory]
    [InlineData(LogEventLevel.Warning, 0)]
    [InlineData(LogEventLevel.Error, 1)]
    [InlineData(LogEventLevel.Fatal, 1)]
    public void The_sink_keeps_errors(LogEventLevel level, int errors)
    {
        var sink = new Bench.Sink();
        sink.Emit(new(DateTimeOffset.UnixEpoch, level, null, new MessageTemplateParser().Parse("x"), []));

        Assert.Equal(errors, sink.Errors.Count());
    }

    [Fact]
    public async Task An_error_in_the_log_fails_the_test_that_caused_it()
    {
        var bench = await Bench.Start();
        bench.Log.Emit(new(DateTimeOffset.UnixEpoch, LogEventLevel.Error, null, new MessageTemplateParser().Parse("planted"), []));

        var failure = await Assert.ThrowsAnyAsync<Xunit.Sdk.XunitException>(async () => await bench.DisposeAsync());
        Assert.Contains("planted", failure.Message, StringComparison.Ordinal);
        Assert.False(Directory.Exists(bench.Folder));
    }

    [Theory]
    [InlineData("ok tag=1 by=2", "by", "2")]
    [InlineData("ok tag=1 by=2", "y", null)]
    [InlineData("ok tag=1 by=", "by", "")]
    public void A_value_is_found_by_its_whole_key(string reply, string key, string? expected) => Assert.Equal(expected, LineClient.Value(reply, key));
}
