using System.Text;
using Microsoft.Extensions.Time.Testing;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Lines;

/// <summary>The line protocol over real sockets.</summary>
public class LineSessionTests : IAsyncLifetime
{
    private const string Good = "locate fixture=pinbed-1 diameter=92.40mm tag=after";
    private readonly CultureScope _culture;
    private readonly string _name;
    private Bench? _bench;

    public LineSessionTests()
        : this("en-US")
    {
    }

    protected LineSessionTests(string culture)
    {
        _name = culture;
        _culture = new(culture);
    }

    public static TheoryData<string, string, string> Bad => new()
    {
        { "locate fixture=pinbed-1 diameter=92.4 tag=b", "request", "unit-missing" },
        { "locate fixture=pinbed-1 diameter=92.4furlong tag=b", "request", "unit-unknown" },
        { "locate fixture=pinbed-1 diameter=92.4MM tag=b", "request", "unit-unknown" },
        { "locate fixture=pinbed-1 diameter=1e3 tag=b", "request", "diameter-malformed" },
        { "locate fixture=pinbed-1 diameter=1e3mm tag=b", "request", "diameter-malformed" },
        { "locate fixture=pinbed-1 diameter=NaN tag=b", "request", "diameter-malformed" },
        { "locate fixture=pinbed-1 diameter=Infinity tag=b", "request", "diameter-malformed" },
        { "locate fixture=pinbed-1 diameter=-5mm tag=b", "request", "diameter-malformed" },
        { "locate fixture=pinbed-1 diameter=+5mm tag=b", "request", "diameter-malformed" },
        { "locate fixture=pinbed-1 diameter=0mm tag=b", "request", "diameter-malformed" },
        { "locate fixture=pinbed-1 diameter=92,4mm tag=b", "request", "diameter-malformed" },
        { "locate fixture=pinbed-1 diameter=11m tag=b", "request", "diameter-malformed" },
        { "locate fixture=pinbed-1 diameter= tag=b", "request", "diameter-malformed" },
        { "locate fixture=nowhere-9 diameter=92.4mm tag=b", "request", "fixture-unknown" },
        { "locate fixture=pinbed-1 diameter=92.4mm nest=6,0 tag=b", "request", "nest-unknown" },
        { "locate fixture=pinbed-1 diameter=92.4mm nest=0,4 tag=b", "request", "nest-unknown" },
        { "locate fixture=pinbed-1 diameter=92.4mm nest=-1,0 tag=b", "request", "value-malformed" },
        { "locate fixture=pinbed-1 diameter=92.4mm nest=1 tag=b", "request", "value-malformed" },
        { "locate fixture=pinbed-1 diameter=59.9mm tag=b", "cell", "diameter-below-envelope" },
        { "locate fixture=pinbed-1 diameter=100.1mm tag=b", "cell", "diameter-above-envelope" },
        { "locate fixture=widebed diameter=47.9mm tag=b", "cell", "diameter-below-envelope" },
        { "locate fixture=pinbed-1 diameter=92.4mm diameter=92.4mm tag=b", "request", "key-doubled" },
        { "locate fixture=pinbed-1 diameters=92.4mm tag=b", "request", "key-unknown" },
        { "locate diameter=92.4mm tag=b", "request", "key-missing" },
        { "locate fixture=../etc diameter=92.4mm tag=b", "request", "value-malformed" },
        { "locate fixture=pinbed-1 diameter=92.4mm purpose=Pick tag=b", "request", "purpose-unknown" },
        { "locate fixture=pinbed-1 purpose=place tag=b", "request", "diameter-missing" },
        { "locate fixture=pinbed-1 diameter=92.6mm lot=A1077 tag=b", "cell", "measurement-outside-lot" },
        { "locate fixture=pinbed-1 diameter=92.4mm lot=C3 tag=b", "request", "lot-unknown" },
        { "locate fixture=pinbed-1 diameter=92.4mm lot=D4 tag=b", "request", "lot-unknown" },
        { "locate fixture=pinbed-1 tag=b", "cell", "measurement-missing" },
        { "LOCATE fixture=pinbed-1 diameter=92.4mm tag=b", "request", "verb-unknown" },
        { "measured fixture=pinbed-1 tag=b", "request", "diameter-missing" },
        { "measured fixture=pinbed-1 diameter=92.4mm gauge=bench-9 tag=b", "request", "gauge-unknown" },
        { "measured fixture=pinbed-1 diameter=92.4mm lot=D4 tag=b", "request", "lot-unknown" },
        { "measured fixture=pinbed-1 diameter=3.638mm lot=A1077 tag=b", "cell", "measurement-outside-lot" },
        { "measured fixture=pinbed-1 diameter=92.4mm diameters=92.4mm tag=b", "request", "value-malformed" },
        { "measured fixture=pinbed-1 diameters=92.4mm,92.41 tag=b", "request", "unit-missing" },
        { "measured fixture=pinbed-1 diameters=92.4mm, tag=b", "request", "diameter-malformed" },
        { "measured fixture=pinbed-1 diameters=\"92.4mm, 92.41mm\" tag=b", "request", "diameter-malformed" },
        { "measured fixture=pinbed-1 diameters= tag=b", "request", "diameter-malformed" },
        { "measured fixture=pinbed-1 diameters=92.4mm,0mm tag=b", "request", "diameter-malformed" },
        { "measured fixture=pinbed-1 diameters=92.4mm,92.6mm gauge=bench-2 tag=b", "cell", "readings-disagree" },
        { "measured fixture=pinbed-1 diameters=9mm,9mm,9mm,9mm,9mm,9mm,9mm,9mm,9mm,9mm,9mm,9mm,9mm,9mm,9mm,9mm,9mm,9mm,9mm,9mm,9mm tag=b", "request",
            "value-malformed" },
        { "measured fixture=pinbed-1 diameter=40mm tag=b", "cell", "diameter-below-envelope" },
        { "emptied fixture=nowhere-9 tag=b", "request", "fixture-unknown" },
        { "confirm tag=b", "request", "key-missing" },
        { "confirm serial=x tag=b", "request", "value-malformed" },
        { "confirm serial=1 tag=b", "request", "serial-unknown" },
        { "confirm serial=999999999999999999 tag=b", "request", "serial-unknown" },
        { "confirm serial=99999999999999999999999 tag=b", "request", "value-malformed" },
        { "status fixture=nowhere-9 tag=b", "request", "fixture-unknown" },
        { "hello world=1 tag=b", "request", "key-unknown" },
        { "hello stray tag=b", "request", "request-malformed" },
        { "bye now=1 tag=b", "request", "key-unknown" },
    };

    public static TheoryData<string, string> BadWithoutTag => new()
    {
        { "", "request-malformed" },
        { "   ", "request-malformed" },
        { "locate fixture=pinbed-1 diameter=\u0669\u0662mm", "request-malformed" },
        { "locate fixture=pinbed-1 diameter=\u0001\u0002\u001b\u007f", "request-malformed" },
        { "\u00ff\u00fe\u0080 \u0010", "request-malformed" },
        { "locate fixture=pinbed-1 tag=\"a b\"", "value-malformed" },
        { "locate fixture=pinbed-1 diameter=" + new string('9', 10_000), "request-too-long" },
    };

    public static TheoryData<string> Foreign => ["GET / HTTP/1.1\r\nHost: a\r\n\r\n", "\u0016\u0003\u0001\u0002\u0000", "locate\0\n", "hello\rhello\r\n"];

    private Bench Bench => _bench!;

    public async ValueTask InitializeAsync() =>
        _bench = await Bench.Start(prepare: b => b.WritePins(
            1, "widebed", ("\"diameter\": [ \"60 mm\", \"100 mm\" ],", ""), ("\"sensitivity\": 2.0", "\"sensitivity\": 1e6"),
            ("\"shift\": \"40 mm\"", "\"shift\": \"400 mm\"")));

    public async ValueTask DisposeAsync()
    {
        try
        {
            await Bench.DisposeAsync();
        }
        finally
        {
            _culture.Dispose();
            GC.SuppressFinalize(this);
        }
    }

    [Fact]
    public async Task The_worked_example_session_has_its_numbers()
    {
        using var line = await Bench.Line();

        Assert.Equal("ok stockseat line 2", await line.Ask("hello"));
        var measured = await line.Ask("measured fixture=pinbed-1 diameter=3.638in gauge=bench-2 lot=A1077 tag=18");
        var m = long.Parse(LineClient.Value(measured, "serial")!);
        Assert.Equal($"ok tag=18 serial={m} fixture=pinbed-1 diameter=0.092405", measured);
        Assert.Equal(
            $"ok tag=17 serial={m + 1} fixture=pinbed-1 revision=3 purpose=pick nest=0,0 diameter=0.092400 unit=m first=yes "
            + $"x={BedPick.X} y={BedPick.Y} z={BedPick.Z} qw=0.134164 qx=-0.939149 qy=-0.313050 qz=0.044721 "
            + $"bx={BedPick.Bx} by={BedPick.By} bz={BedPick.Bz} ox=0.000000 oy={BedPick.Oy} oz=0.000000 "
                + "ualong=0.000241 uacross=0.000260 ualongworst=0.000379 uacrossworst=0.000359 end",
            await line.Ask("locate fixture=pinbed-1 diameter=92.40mm tag=17"));
        var fresh = await line.Ask("locate fixture=pinbed-1 lot=A1077");
        Assert.StartsWith($"ok serial={m + 2} fixture=pinbed-1 revision=3 purpose=pick nest=0,0 diameter=0.092405 measurement={m} age=", fresh,
            StringComparison.Ordinal);
        Assert.StartsWith($"ok serial={m + 3} ", await line.Ask("locate fixture=pinbed-1 diameter=91.8mm purpose=place nest=2,1"), StringComparison.Ordinal);
        Assert.Equal($"ok tag=19 serial={m + 4} confirms={m + 1}", await line.Ask($"confirm serial={m + 1} {BedPick.ReadBack} tag=19"));
        Assert.Equal($"ok tag=20 serial={m + 5} done={m + 1}", await line.Ask($"done serial={m + 1} tag=20"));
        Assert.Equal($"ok serial={m + 6} fixture=pinbed-1", await line.Ask("emptied fixture=pinbed-1"));
        Assert.StartsWith("refused class=cell reason=measurement-missing ", await line.Ask("locate fixture=pinbed-1"), StringComparison.Ordinal);
        Assert.StartsWith("ok verbs=hello,measured,locate,confirm,done,still,emptied,status,help,bye ", await line.Ask("help"), StringComparison.Ordinal);
        Assert.Equal("ok tag=x bye", await line.Ask("bye tag=x"));
        Assert.Null(await line.Read());
    }

    [Fact]
    public async Task A_nest_of_the_layout_is_its_pitches_away_and_the_shift_is_the_same()
    {
        using var line = await Bench.Line();
        var origin = await line.Ask("locate fixture=pinbed-1 diameter=92.4mm");
        var nest = await line.Ask("locate fixture=pinbed-1 diameter=92.4mm nest=2,1");

        // u = seat axis × normal = (0.8, 0.6, 0), v = the seat axis = (−0.576, 0.768, 0.28): 250 mm along u and 130 mm along v.
        Assert.Equal(Number(origin, "x") + 0.12512m, Number(nest, "x"));
        Assert.Equal(Number(origin, "y") + 0.24984m, Number(nest, "y"));
        Assert.Equal(Number(origin, "z") + 0.0364m, Number(nest, "z"));
        Assert.All(["bx", "by", "bz"], key => Assert.Equal(Number(origin, key), Number(nest, key)));

        static decimal Number(string reply, string key) => decimal.Parse(LineClient.Value(reply, key)!, System.Globalization.CultureInfo.InvariantCulture);
    }

    [Theory]
    [MemberData(nameof(Bad))]
    public async Task A_bad_request_has_its_reason_and_the_next_is_answered(string request, string @class, string reason)
    {
        using var line = await Greeted();

        var reply = await line.Ask(request);

        Assert.StartsWith($"refused tag=b class={@class} reason={reason} text=\"", reply, StringComparison.Ordinal);
        Assert.EndsWith("\"", reply, StringComparison.Ordinal);
        Assert.DoesNotContain(" by=", reply, StringComparison.Ordinal);
        await AnswersStill(line);
    }

    [Theory]
    [MemberData(nameof(BadWithoutTag))]
    public async Task A_bad_line_has_its_reason_and_the_next_is_answered(string request, string reason)
    {
        using var line = await Greeted();

        Assert.StartsWith($"refused class=request reason={reason} text=\"", await line.Ask(request), StringComparison.Ordinal);
        await AnswersStill(line);
    }

    [Fact]
    public async Task Stock_that_drops_between_the_pins_is_reported_as_such()
    {
        using var line = await Bench.Line();

        Assert.Contains("it would drop between the locators", await line.Ask("locate fixture=widebed diameter=47.9mm"), StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Foreign))]
    public async Task Another_protocol_gets_one_refusal_and_the_connection_closes(string text)
    {
        using (var line = await Bench.Line())
        {
            await line.Send(text);
            Assert.StartsWith("refused class=request reason=request-malformed text=\"this is not the line protocol", await line.Read(),
                StringComparison.Ordinal);
            Assert.Null(await line.Read());
        }

        using var next = await Bench.Line();
        await AnswersStill(next);
    }

    [Fact]
    public async Task Requests_in_one_piece_are_answered_in_order()
    {
        using var line = await Bench.Line();
        var requests = new StringBuilder();
        for (var i = 0; i < 200; i++)
        {
            requests.Append(i % 3 == 0 ? $"locate fixture=pinbed-1 diameter=92.4mm tag={i}\n" : i % 3 == 1 ? $"hello tag={i}\r\n" : $"nonsense tag={i}\n");
        }

        await line.Send(requests.ToString());

        for (var i = 0; i < 200; i++)
        {
            Assert.StartsWith(i % 3 == 2 ? $"refused tag={i} " : $"ok tag={i} ", await line.Read(), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_client_that_closes_its_half_still_gets_its_answers()
    {
        using var line = await Bench.Line();
        await line.Send(Good + "\nhello\nhel");
        line.HalfClose();

        Assert.StartsWith("ok tag=after serial=", await line.Read(), StringComparison.Ordinal);
        Assert.Equal("ok stockseat line 2", await line.Read());
        Assert.Contains("the stream ended within a line", await line.Read(), StringComparison.Ordinal);
        Assert.Null(await line.Read());
    }

    [Fact]
    public async Task A_line_of_512_bytes_is_answered_and_one_of_513_is_refused_once()
    {
        using var line = await Bench.Line();

        Assert.StartsWith("ok stockseat", await line.Ask("hello" + new string(' ', 507)), StringComparison.Ordinal);
        Assert.StartsWith("refused class=request reason=request-too-long", await line.Ask("hello" + new string(' ', 508)), StringComparison.Ordinal);
        await AnswersStill(line);
    }

    [Fact]
    public async Task Random_bytes_leave_the_service_healthy()
    {
        var random = new Random(20261125);
        for (var i = 0; i < 50; i++)
        {
            var bytes = new byte[random.Next(1, 3000)];
            random.NextBytes(bytes);
            using var line = await Bench.Line();
            await line.Send(bytes);
            line.HalfClose();
            var replies = 0;
            while (await line.Read() is { } reply)
            {
                Assert.StartsWith("refused class=request reason=", reply, StringComparison.Ordinal);
                replies++;
            }

            Assert.NotEqual(0, replies);
        }

        using var good = await Bench.Line();
        await AnswersStill(good);
    }

    [Fact]
    public async Task A_request_that_arrives_one_byte_at_a_time_is_answered()
    {
        using var line = await Bench.Line();
        foreach (var b in Encoding.ASCII.GetBytes(Good + "\r\n"))
        {
            await line.Send([b]);
        }

        Assert.StartsWith("ok tag=after serial=", await line.Read(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Many_clients_at_once_each_get_their_own_answers()
    {
        var serials = await Task.WhenAll(Enumerable.Range(0, 20).Select(async client =>
        {
            using var line = await Bench.Line();
            var own = new List<string?>();
            for (var i = 0; i < 20; i++)
            {
                var reply = await line.Ask($"locate fixture=pinbed-1 diameter=92.4mm tag={client}-{i}");
                Assert.StartsWith($"ok tag={client}-{i} serial=", reply, StringComparison.Ordinal);
                own.Add(LineClient.Value(reply, "serial"));
            }

            return own;
        }));

        Assert.Equal(400, serials.SelectMany(s => s).Distinct().Count());
    }

    [Fact]
    public async Task A_refused_goodbye_does_not_end_the_conversation()
    {
        using var line = await Greeted();

        Assert.StartsWith("refused class=request reason=key-unknown", await line.Ask("bye now=1"), StringComparison.Ordinal);
        await AnswersStill(line);
    }

    [Theory]
    [InlineData(BedPick.ReadBack, null)]
    [InlineData("by=" + BedPick.By, "readback-missing")]
    [InlineData(BedPick.ReadBack + "0", null)]
    [InlineData("oy=-0.008213 z=0.1203 ox=0", null)]
    [InlineData("by=0.006307", "readback-differs")]
    [InlineData("by=-0.006308", "readback-differs")]
    [InlineData("by=0,006308", "value-malformed")]
    [InlineData("by=6.308e-3", "value-malformed")]
    [InlineData("by=0.006308m", "value-malformed")]
    [InlineData("up=0.006308", "key-unknown")]
    public async Task Numbers_read_back_are_compared_as_numbers(string read, string? reason)
    {
        using var line = await Bench.Line();
        var serial = LineClient.Value(await line.Ask(Good), "serial");

        var reply = await line.Ask($"confirm serial={serial} {read}");

        Assert.StartsWith(reason is null ? "ok serial=" : "refused class=", reply, StringComparison.Ordinal);
        Assert.Equal(reason, LineClient.Value(reply, "reason"));
    }

    [Fact]
    public async Task An_answer_that_was_carried_out_is_not_marked_first_any_more()
    {
        using var line = await Bench.Line();
        var first = await line.Ask(Good);
        var serial = LineClient.Value(first, "serial");
        Assert.EndsWith($" confirms={serial} numbers=none", await line.Ask($"confirm serial={serial}"), StringComparison.Ordinal);
        Assert.StartsWith("refused class=cell reason=confirmation-missing ", await line.Ask($"done serial={serial}"), StringComparison.Ordinal);
        await line.Ask($"confirm serial={serial} {BedPick.ReadBack}");
        Assert.Equal("yes", LineClient.Value(await line.Ask(Good), "first"));
        Assert.EndsWith($" done={serial}", await line.Ask($"done serial={serial}"), StringComparison.Ordinal);

        Assert.Equal("yes", LineClient.Value(first, "first"));
        Assert.Equal("no", LineClient.Value(await line.Ask(Good), "first"));
    }

    [Fact]
    public async Task Status_reports_all_fixtures_or_one()
    {
        using var line = await Bench.Line();
        var measured = LineClient.Value(await line.Ask("measured fixture=pinbed-1 diameter=92.4mm"), "serial");

        Assert.Equal($"ok tag=s ledger=writable serial={measured} fixtures=4 answering=4 waiting=0 turnedaway=0 names=pinbed-1,rollers-3,veerack-2,widebed",
            await line.Ask("status tag=s"));
        var one = await line.Ask("status fixture=pinbed-1");
        Assert.StartsWith($"ok fixture=pinbed-1 revision=3 measurement={measured} diameter=0.092400 unit=m age=", one, StringComparison.Ordinal);
        Assert.EndsWith(" answers=yes", one, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_measurement_is_stale_after_the_freshness_of_its_gauge()
    {
        var time = new FakeTimeProvider(DateTimeOffset.Parse("2026-11-25T06:00:00Z"));
        await using var bench = await Bench.Start(time, s => s["Freshness"] = "00:30:00");
        await Ask("measured fixture=pinbed-1 diameter=92.4mm");
        time.Advance(TimeSpan.FromMinutes(30));
        Assert.Equal("1800", LineClient.Value(await Ask("locate fixture=pinbed-1"), "age"));
        time.Advance(TimeSpan.FromMilliseconds(1));
        Assert.StartsWith("refused class=cell reason=measurement-stale ", await Ask("locate fixture=pinbed-1"), StringComparison.Ordinal);

        await Ask("measured fixture=pinbed-1 diameter=92.4mm gauge=bench-2");
        time.Advance(TimeSpan.FromHours(2));
        Assert.Equal("7200", LineClient.Value(await Ask("locate fixture=pinbed-1"), "age"));
        time.Advance(TimeSpan.FromSeconds(1));
        Assert.StartsWith("refused class=cell reason=measurement-stale ", await Ask("locate fixture=pinbed-1"), StringComparison.Ordinal);

        // On a connection of its own: one that has not finished a reply when hours pass is reset, as it should be.
        async Task<string> Ask(string ask)
        {
            using var line = await bench.Line();
            return await line.Ask(ask);
        }
    }

    [Fact]
    public async Task Only_a_client_s_address_is_answered()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["From"]![0] = "127.0.0.2/32");

        using (var stranger = await LineClient.Connect(bench.Service.Line, "127.0.0.1"))
        {
            Assert.StartsWith("refused class=request reason=not-permitted ", await stranger.Read(), StringComparison.Ordinal);
            Assert.Null(await stranger.Read());
        }

        using var known = await LineClient.Connect(bench.Service.Line, "127.0.0.2");
        await AnswersStill(known);
    }

    [Fact]
    public async Task The_service_itself_runs_in_the_culture_of_the_test()
    {
        using var line = await Bench.Line();
        await line.Ask("locate fixture=nowhere-9 diameter=92.4mm");

        Assert.Equal(_name, Assert.Single(Bench.Log.All, e => e.Text.Contains("nowhere-9", StringComparison.Ordinal)).Culture);
    }

    /// <summary>A connection on which one line was understood: a later line that is not a request does not end it.</summary>
    private async Task<LineClient> Greeted()
    {
        var line = await Bench.Line();
        Assert.StartsWith("ok ", await line.Ask("hello"), StringComparison.Ordinal);
        return line;
    }

    private static async Task AnswersStill(LineClient line)
    {
        var answer = await line.Ask(Good);
        Assert.StartsWith("ok tag=after serial=", answer, StringComparison.Ordinal);
        Assert.Equal(BedPick.By, LineClient.Value(answer, "by"));
    }
}

public sealed class LineSessionInGermanTests() : LineSessionTests("de-DE");

public sealed class LineSessionInTurkishTests() : LineSessionTests("tr-TR");
