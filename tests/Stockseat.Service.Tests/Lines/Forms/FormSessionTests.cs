using System.Text.Json;
using System.Text.Json.Nodes;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Lines.Forms;

/// <summary>Conversations in forms, over real sockets.</summary>
public class FormSessionTests
{
    private const string Semicolons = """{ "Ok": "ok;{serial};{bx};{by};{bz};end", "Refused": "refused;{reason}", "LineEnd": "crlf", "BareUnit": "mm" }""";

    public static TheoryData<string> Cultures => new("en-US", "de-DE", "tr-TR");

    [Theory]
    [MemberData(nameof(Cultures))]
    public async Task A_short_session(string culture)
    {
        using var scope = new CultureScope(culture);
        await using var bench = await Start("short");
        using var line = await bench.Line();

        var answer = await line.Ask("locate fixture=pinbed-1 diameter=92.40mm tag=17");
        var serial = answer.Split(' ')[2];

        Assert.Equal($"ok 17 {serial} yes {BedPick.Micrometres} end", answer);
        Assert.Equal("refused a cell readback-differs", await line.Ask($"confirm serial={serial} by=6309 tag=a"));
        Assert.Equal("refused - cell readback-differs", await line.Ask($"confirm serial={serial} by={BedPick.By}"));
        Assert.Matches(@"\Aok b \d+ end\z", await line.Ask($"confirm serial={serial} bx=-4731 by=6308 bz=2300 diameter=92400 tag=b"));
        Assert.Matches(@"\Aok c \d+ end\z", await line.Ask($"still serial={serial} tag=c"));
        Assert.Matches(@"\Aok d \d+ end\z", await line.Ask($"done serial={serial} tag=d"));
        Assert.Matches($@"\Aok 18 \d+ no {BedPick.Micrometres} end\z", await line.Ask("locate fixture=pinbed-1 diameter=92.40mm tag=18"));
        Assert.Matches(@"\Aok - \d+ end\z", await line.Ask("measured fixture=pinbed-1 diameter=92.40mm"));
        Assert.Matches(@"\Aok - \d+ end\z", await line.Ask("emptied fixture=pinbed-1"));
        Assert.Equal("refused - request unit-missing", await line.Ask("locate fixture=pinbed-1 diameter=92.4"));
        var body = JsonDocument.Parse((await Entry(bench, long.Parse(serial, System.Globalization.CultureInfo.InvariantCulture))).Body).RootElement;
        Assert.Equal(("um", 0, 0.0924), (body.GetProperty("unit").GetString(), body.GetProperty("decimals").GetInt32(),
            body.GetProperty("diameter").GetDouble()));
    }

    [Fact]
    public async Task No_reply_of_a_short_session_is_too_long()
    {
        await using var bench = await Start("short");
        using var line = await bench.Line();
        var tag = new string('t', 16);

        foreach (var ask in (string[])["hello", "help", "status", "status fixture=pinbed-1", "status fixture=none", "nonsense", "locate fixture=pinbed-1",
            "bye"])
        {
            Assert.InRange((await line.Ask($"{ask} tag={tag}")).Length, 1, 80);
        }
    }

    [Fact]
    public async Task Where_replies_are_cut_the_deciding_values_come_first()
    {
        await using var bench = await Start("short");
        using var line = await bench.Line();

        Assert.Equal("ok answers=yes fixture=pinbed-1 revision=3 proven=no", await line.Ask("status fixture=pinbed-1"));
        Assert.Equal("ok tag=a verbs=hello,measured,locate,confirm,done,still,emptied,status,help,bye", await line.Ask("help tag=a"));
    }

    [Theory]
    [InlineData("ttttttttttttttttt", "17 characters")]
    [InlineData("end", "would look complete")]
    [InlineData("ending", "would look complete")]
    public async Task A_tag_that_the_form_can_not_echo_is_refused_and_not_echoed(string tag, string said)
    {
        await using var bench = await Start("short");
        using var line = await bench.Line();
        await line.Ask("hello");

        foreach (var ask in (string[])["hello", "locate fixture=pinbed-1 diameter=92.40mm", "confirm serial=1"])
        {
            Assert.Equal("refused - request value-malformed", await line.Ask($"{ask} tag={tag}"));
        }

        Assert.Contains(said, Service.Lines.Forms.Form.Short.Bars(tag), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_reply_ends_as_the_form_says()
    {
        await using var bench = await Start("semicolons");
        using var line = await bench.Line();

        var (ok, refused, malformed) = (await Raw(bench, "hello\n"), await Raw(bench, "nonsense\n"), await Raw(bench, "\u0001\n"));

        Assert.Equal("ok stockseat line 2\r\n", ok);
        Assert.Equal("refused;verb-unknown\r\n", refused);
        Assert.Equal("refused;request-malformed\r\n", malformed);
    }

    [Fact]
    public async Task Bare_numbers_are_read_in_the_form_s_unit_and_a_written_unit_always_wins()
    {
        await using var bench = await Start("semicolons");
        using var line = await bench.Line();

        var bare = await line.Ask("locate fixture=pinbed-1 diameter=92.40");
        var shift = $";{BedPick.Bx};{BedPick.By};{BedPick.Bz};end";
        Assert.Matches($@"\Aok;\d+{shift.Replace(".", @"\.", StringComparison.Ordinal)}\z", bare);
        Assert.EndsWith(shift, await line.Ask("locate fixture=pinbed-1 diameter=0.0924m"), StringComparison.Ordinal);
        Assert.StartsWith("ok;", await line.Ask("locate fixture=pinbed-1 diameter=92.4mm nominal=92 within=0.5"), StringComparison.Ordinal);
        Assert.Equal("refused;measurement-outside-lot", await line.Ask("locate fixture=pinbed-1 diameter=92.4mm nominal=92 within=0.3"));
        Assert.Equal("refused;diameter-malformed", await line.Ask("locate fixture=pinbed-1 diameter=92,4"));
        var measured = await line.Ask("measured fixture=pinbed-1 diameter=92.40");
        var serial = long.Parse(measured.Split(';')[1], System.Globalization.CultureInfo.InvariantCulture);
        Assert.Equal("mm", JsonDocument.Parse((await Entry(bench, serial)).Body).RootElement.GetProperty("unit").GetString());
    }

    [Fact]
    public async Task Status_in_another_unit_says_so()
    {
        await using var bench = await Start("named", """{ "Unit": "mm", "Decimals": 4 }""");
        using var line = await bench.Line();
        await line.Ask("measured fixture=pinbed-1 diameter=92.40mm");

        var status = await line.Ask("status fixture=pinbed-1");

        Assert.Equal(("92.4000", "mm"), (LineClient.Value(status, "diameter"), LineClient.Value(status, "unit")));
    }

    private static Task<Bench> Start(string form, string? entry = null) => Bench.Start(configure: settings =>
    {
        settings["Clients"]![0]!["Form"] = form;
        settings["Forms"] = form == "short" ? new JsonObject() : new JsonObject { [form] = JsonNode.Parse(entry ?? Semicolons) };
    });

    /// <summary>All bytes of a reply, including its end.</summary>
    private static async Task<string> Raw(Bench bench, string request)
    {
        using var client = new System.Net.Sockets.TcpClient();
        await client.ConnectAsync(bench.Service.Line).Within("a connection to the line port");
        var stream = client.GetStream();
        await stream.WriteAsync(System.Text.Encoding.ASCII.GetBytes(request));
        client.Client.Shutdown(System.Net.Sockets.SocketShutdown.Send);
        return await new StreamReader(stream, System.Text.Encoding.ASCII).ReadToEndAsync().Within("the end of the connection");
    }

    private static async Task<Entry> Entry(Bench bench, long serial)
    {
        var entries = await new LedgerService.LedgerServiceClient(bench.Channel).ListEntriesAsync(new());
        return entries.Entries.Single(e => e.Serial == serial);
    }
}
