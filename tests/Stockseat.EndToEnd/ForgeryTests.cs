using System.Globalization;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;
using Stockseat.EndToEnd.Support;
using Stockseat.Tests.Support;

namespace Stockseat.EndToEnd;

/// <summary>No text of a client or of a file can forge a line of the log, move a terminal's cursor, or reverse a line of a table.</summary>
public abstract class ForgeryTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : ForgeryTests(Build.Ordinary);

    public sealed class Native() : ForgeryTests(Build.Native);

    /// <summary>
    /// Control characters of both ranges, line ends of all kinds, direction marks, tags of the supplementary planes, and text that a template or a JSON reader
    /// would interpret.
    /// </summary>
    private static readonly string[] Forged =
    [
        "\u001b[2J\u001b]0;owned\u0007", "\u009b31m\u0085next\u007f", "\u0001\u0002\b\b\b\tline\r\nanother", "{\"@l\":\"Fatal\"}\n{\"@l\":\"Fatal\"}",
        "a\u2028b\u2029c\u200bzero\ufeff", "\u202eevil\u202c\u2066left\u2069",
        "\ud83d\ude00\U000E0041\U000E0042", "{0} {@x} {{ }} {Text} %s%n", "\"quoted\" \\u001b '; DROP TABLE entry; --",
        "[red]markup[/]<script>alert(1)</script>",
    ];

    [Fact]
    public async Task NoTextOfAClientOrAFile_ForgesALineAnywhere()
    {
        using var cell = new Cell();
        PublishForged(cell);
        await using var service = await Program.Serve(cell);

        for (var i = 0; i < Forged.Length; i++)
        {
            await SayInLines(service, Forged[i]);

            // Each time another revision is adopted, so that every text has its entry.
            cell.Publish("pinbed-1", 3, 100 + i);
            await SayOverGrpc(service, Forged[i], $"{100 + i}");
        }

        var tables = new[]
        {
            await service.Ask("ledger", "tail", "--count", "1000"), await service.Ask("fixture", "list"), await service.Ask("fixture", "show", "pinbed-1", "4"),
            await Program.Run("ledger", "list", "--data", cell.Data),
        };
        Assert.All(tables, t => Assert.All(t.Exits(0).Out.Split('\n'), IsPlain));
        var entries = (await service.Ask("ledger", "tail", "--count", "1000", "--json")).Exits(0);
        Assert.All(entries.Out.Split('\n'), IsPlain);
        (await service.Ask("fixture", "list", "--json")).Exits(0).Lines.Single(l => l.GetProperty("fixture").GetString() == "pinbed-1");

        // The texts are kept as they were sent, and each is one line of the table.
        var whys = entries.Lines.Select(l => l.GetProperty("body"))
            .Where(b => b.GetProperty("kind").GetString() == "revision-adopted" && b.TryGetProperty("why", out _)).Select(b => b.GetProperty("why").GetString())
            .ToList();
        Assert.All(Forged, text => Assert.Contains(text, whys));
        Assert.Equal(entries.Lines.Count + 1, tables[0].Out.TrimEnd('\n').Split('\n').Length);
        Assert.Equal(0, (await service.Ask("ledger", "verify")).ExitCode);

        Assert.Equal(0, (await service.Terminate()).ExitCode);
        IsALog(await service.Stderr);
        (await Program.Run("ledger", "verify", "--data", cell.Data)).Exits(0);
    }

    [Theory]
    [InlineData("a\u001bb")]
    [InlineData("a\u009bb")]
    [InlineData("a\u202eb")]
    [InlineData("a\u2028b")]
    [InlineData("a\rb")]
    [InlineData("a\U000E0041b")]
    public void ALineThatIsNotPlain_IsFound(string line) => Assert.ThrowsAny<Xunit.Sdk.XunitException>(() => IsPlain(line));

    [Theory]
    [InlineData("{\"a\":1}\n\n")]
    [InlineData("{\"a\":1}\nforged\n")]
    [InlineData("{\"a\":\"\u202e\"}\n")]
    [InlineData("{\"a\":\"\u0085\"}\n")]
    [InlineData("[1]\n")]
    public void ALogThatIsForged_IsFound(string log) => Assert.ThrowsAny<Exception>(() => IsALog(log));

    private static void IsALog(string log)
    {
        Assert.EndsWith("\n", log, StringComparison.Ordinal);
        Assert.All(log[..^1].Split('\n'), line =>
        {
            IsPlain(line);
            Assert.Equal(JsonValueKind.Object, JsonSerializer.Deserialize<JsonElement>(line).ValueKind);
        });
    }

    private static void IsPlain(string line) => Assert.DoesNotContain(
        line.EnumerateRunes(),
        r => Rune.GetUnicodeCategory(r) is UnicodeCategory.Control
            or UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator);

    /// <summary>A sound revision whose note has all of it, one that has faults in its texts, and files whose names can't be a revision's.</summary>
    private static void PublishForged(Cell cell)
    {
        var all = JsonSerializer.Serialize(string.Concat(Forged.Take(3)))[1..^1];
        cell.Publish("pinbed-1", 3, 4, ("\"note\": \"bed moved 40 mm\"", $"\"note\": \"{all}\""));
        for (var i = 0; i < Forged.Length; i++)
        {
            cell.Publish(
                "pinbed-1", 3, 10 + i, ("\"fixture\": \"pinbed-1\"", $"\"fixture\": {JsonSerializer.Serialize(Forged[i])}"),
                ("\"direction\": \"u\"", $"\"direction\": {JsonSerializer.Serialize(Forged[i])}"));
        }

        if (!OperatingSystem.IsWindows())
        {
            cell.Write("config/fixtures/pinbed-1/r\u001b[2J\u202e\n\u0085.json", "{}");
        }
    }

    private static async Task SayInLines(Service service, string text)
    {
        string[] lines =
        [
            $"{text}", $"locate fixture={text} tag={text}", $"locate fixture=pinbed-1 lot=\"{text}\" purpose={text}",
            $"measured fixture=pinbed-1 diameter=92.4mm gauge={text} lot={text}", $"confirm serial=1 \"{text}\"={text} {text}=1", $"status fixture=\"{text}\"",
        ];
        foreach (var line in lines)
        {
            using var client = new TcpClient();
            await client.ConnectAsync(service.Line).Within("a connection to the line port");
            await using var stream = client.GetStream();
            await stream.WriteAsync(Encoding.UTF8.GetBytes(line + "\nbye\n")).Within("the sending of a line");
            using var reader = new StreamReader(stream, Encoding.Latin1);
            Assert.All(
                (await reader.ReadToEndAsync().Within("the end of the replies")).Split('\n'), reply => Assert.DoesNotContain(reply, c => c is < ' ' or > '~'));
        }
    }

    private static async Task SayOverGrpc(Service service, string text, string revision)
    {
        using var socket = await service.Connect();
        var answer = (await socket.Ask("locate fixture=pinbed-1 diameter=92.4mm"))["serial"];
        string[][] commands =
        [
            ["fixture", "adopt", "pinbed-1", revision, $"--by={text}", $"--why={text}"], ["confirm", answer, $"--read=by={text}"],
            ["confirm", answer, $"--read={text}=1"],
            ["measured", "pinbed-1", "92.4mm", $"--lot={text}", $"--gauge={text}"],
        ];
        foreach (var command in commands)
        {
            var run = await service.Ask(command);
            Assert.All(run.Out.Split('\n').Concat(run.Err.Split('\n')), IsPlain);
        }
    }
}
