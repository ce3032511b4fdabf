using System.Globalization;
using NSubstitute;
using Stockseat.Answers.Asking;
using Stockseat.Answers.State;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Lines;

/// <summary>Requests sent before the replies to earlier requests have arrived.</summary>
public class PipeliningTests
{
    private const string Locate = "locate fixture=pinbed-1 diameter=92.40mm tag=";

    [Fact]
    public async Task The_number_of_asks_under_way_equals_the_stated_depth()
    {
        await using var line = new PipedLine(new() { Pipelined = 3 });

        await line.Send(string.Concat(Enumerable.Range(0, 5).Select(i => $"{Locate}{i}\n")));

        Assert.Equal(["0", "1", "2"], line.UnderWay.Select(a => a.Ask.Caller.Tag));
        line.End(0);
        line.End(1);
        line.End(2);
        Assert.Equal(["0", "1", "2", "3", "4"], line.UnderWay.Select(a => a.Ask.Caller.Tag));
    }

    [Fact]
    public async Task Replies_come_in_order_and_each_as_soon_as_possible()
    {
        await using var line = new PipedLine(new());
        await line.Send($"{Locate}0\n{Locate}1\n{Locate}2\n");

        line.End(1);
        Assert.Equal("", line.Take());
        line.End(0);
        Assert.Equal(["number 0", "number 1"], Numbers(line.Take()));
        line.End(2);
        Assert.Equal(["number 2"], Numbers(line.Take()));
    }

    [Fact]
    public async Task Status_waits_for_every_line_before_it_even_when_the_last_of_them_was_refused_at_once()
    {
        await using var line = new PipedLine(new());
        line.Asked.Situation.Returns(Situation.Empty);
        line.Asked.Serial.Returns(4);

        await line.Send($"{Locate}0\nlocate diameter=92.4\nstatus\n");
        line.Asked.Serial.Returns(5);
        line.End(0);

        Assert.Contains("\nok ledger=unavailable serial=5 ", line.Take(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nothing_after_a_goodbye_is_read()
    {
        await using var line = new PipedLine(new());

        await line.Send($"{Locate}0\nbye\n{Locate}2\n");
        line.End(0);
        await line.Ended.Within("the end of the connection");

        Assert.Single(line.UnderWay);
        Assert.EndsWith("\nok bye\n", line.Take(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Requests_sent_before_the_client_closed_its_side_are_still_answered()
    {
        await using var line = new PipedLine(new() { Pipelined = 2 });
        await line.Send($"{Locate}0\n{Locate}1\n{Locate}2\n");
        line.HalfClose();

        for (var i = 0; i < 3; i++)
        {
            line.End(i);
        }

        await line.Ended.Within("the end of the connection");
        Assert.Equal(["number 0", "number 1", "number 2"], Numbers(line.Take()));
    }

    [Fact]
    public async Task Over_a_socket_every_line_is_answered_in_order_and_status_includes_the_lines_before_it()
    {
        await using var bench = await Bench.Start();
        using var line = await bench.Line();
        const int Rounds = 60;
        static string Three(int i) =>
            $"measured fixture=pinbed-1 diameter=9{i % 10}.{i:000}mm tag=m{i}\nstatus fixture=pinbed-1 "
                + $"tag=s{i}\n{(i % 7 == 0 ? "locate fixture" : "locate fixture=pinbed-1")} tag=l{i}\n";

        await line.Send(string.Concat(Enumerable.Range(0, Rounds).Select(Three)));
        line.HalfClose();

        var before = 0L;
        for (var i = 0; i < Rounds; i++)
        {
            var measured = await line.Read();
            Assert.StartsWith($"ok tag=m{i} serial=", measured, StringComparison.Ordinal);
            var serial = long.Parse(LineClient.Value(measured!, "serial")!, CultureInfo.InvariantCulture);
            Assert.True(serial > before);
            var status = await line.Read();
            Assert.StartsWith($"ok tag=s{i} fixture=pinbed-1 revision=3 measurement=", status, StringComparison.Ordinal);
            Assert.True(long.Parse(LineClient.Value(status!, "measurement")!, CultureInfo.InvariantCulture) >= serial, "older than the line before it");
            var located = await line.Read();
            Assert.StartsWith(i % 7 == 0 ? $"refused tag=l{i} class=request reason=request-malformed " : $"ok tag=l{i} ", located, StringComparison.Ordinal);
            Assert.Equal(i % 7 == 0 ? null : $"{serial}", LineClient.Value(located!, "measurement"));
            before = serial;
        }

        Assert.Null(await line.Read());
    }

    private static IEnumerable<string> Numbers(string replies) =>
        replies.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(r => r.Split('"')[1].Split(';')[0]);
}
