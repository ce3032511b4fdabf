using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

public abstract class LedgerExportTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : LedgerExportTests(Build.Ordinary);

    public sealed class Native() : LedgerExportTests(Build.Native);

    [Fact]
    public async Task Export_AsLines_HasTheChainByteForByte()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        await Fill(service);

        var run = (await service.Ask("ledger", "export", "--jsonl")).Exits(0);

        var (hash, bodies) = (new byte[32], new List<string>());
        const string Head = "{\"hash\":\"";
        foreach (var line in run.Out.Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            var stored = line.Substring(Head.Length, 64);
            var body = line[(Head.Length + 64 + "\",\"body\":".Length)..^1];
            hash = SHA256.HashData([1, .. hash, .. Encoding.UTF8.GetBytes(body)]);
            Assert.Equal(stored, Convert.ToHexStringLower(hash));
            Assert.Equal(stored, JsonSerializer.Deserialize<JsonElement>(line).GetProperty("hash").GetString());
            bodies.Add(body);
        }

        Assert.Equal(LedgerRows.Read(cell.Data).Select(r => r.Body.GetRawText()), bodies);
        Assert.Equal(run.Out, (await Program.Run("ledger", "export", "--jsonl", "--data", cell.Data)).Exits(0).Out);
    }

    [Fact]
    public async Task Export_AsTable_HasItsColumns_AndNoFormulas()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        await Fill(service);

        var run = (await service.Ask("ledger", "export", "--csv")).Exits(0);
        var rows = Csv(run.Out);
        var hold = Assert.Single(rows, r => r["kind"] == "held");
        var answer = Assert.Single(rows, r => r["kind"] == "answer");
        var refusal = Assert.Single(rows, r => r["kind"] == "refusal");
        var confirmation = Assert.Single(rows, r => r["kind"] == "confirmation");

        Assert.EndsWith("\r\n", run.Out, StringComparison.Ordinal);
        Assert.Equal(Enumerable.Range(1, rows.Count).Select(i => $"{i}"), rows.Select(r => r["serial"]));
        Assert.Equal(("'=HYPERLINK(\"x\"),\r\nsecond", "'@setter"), (hold["why"], hold["who"]));
        Assert.Equal(("0.0924", "pick", "2", "1", "demo", "t-1", "3", "yes"),
            (
                answer["diameter [m]"], answer["purpose"], answer["column"], answer["row"], answer["cell"], answer["tag"], answer["revision"],
                answer["first"]));
        Assert.Equal(answer["serial"], confirmation["confirms"]);
        Assert.Equal(answer["by [m]"], confirmation["by [m]"]);
        Assert.Equal(("diameter-below-envelope", "0.04", ""), (refusal["reason"], refusal["diameter [m]"], refusal["x [m]"]));
        Assert.NotEmpty(refusal["text"]);
        var body = LedgerRows.Read(cell.Data)[int.Parse(answer["serial"]) - 1].Body;
        // all digits
        Assert.Equal(body.GetProperty("position")[1].GetDouble(), double.Parse(answer["y [m]"], System.Globalization.CultureInfo.InvariantCulture));
        // By hand, and a negative number is a number, no text with an apostrophe.
        var along = (Math.Sqrt(1856.25) - Math.Sqrt(1216)) / 1000;
        Assert.Equal(-0.576 * along, double.Parse(answer["bx [m]"], System.Globalization.CultureInfo.InvariantCulture), 1e-12);
        Assert.Equal(run.Out, (await Program.Run("ledger", "export", "--csv", "--data", cell.Data)).Exits(0).Out);
        Assert.Equal(["answer"], Csv((await service.Ask("ledger", "export", "--csv", "--kind", "answer", "--tag", "t-1")).Exits(0).Out).Select(r => r["kind"]));
    }

    [Fact]
    public async Task Export_ToAFile_NeverOverwritesOne()
    {
        using var cell = new Cell();
        await using (var service = await Program.Serve(cell))
        {
            await Fill(service);
        }

        var file = Path.Combine(cell.Folder, "out.csv");
        (await Program.Run("ledger", "export", "--csv", "--data", cell.Data, "--output", file)).Exits(0);
        var text = await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken);
        (await Program.Run("ledger", "export", "--jsonl", "--data", cell.Data, "--output", file)).Fails(2, "already exists and is never overwritten");

        Assert.Equal((await Program.Run("ledger", "export", "--csv", "--data", cell.Data)).Exits(0).Out, text);
        Assert.Equal(text, await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken));
        Assert.Empty(Directory.GetFiles(cell.Folder, "*.part"));
        (await Program.Run("ledger", "export", "--csv", "--data", cell.Fixtures)).Exits(2);
        (await Program.Run("ledger", "export", "--data", cell.Data)).Fails(64, "either --csv or --jsonl was expected");
        (await Program.Run("ledger", "export", "--csv", "--jsonl", "--data", cell.Data)).Fails(64, "either --csv or --jsonl was expected");
    }

    private static async Task Fill(Service service)
    {
        var serial = (await service.Ask("locate", "pinbed-1", "--diameter", "92.40mm", "--nest", "2,1", "--tag", "t-1", "--json")).Exits(0)
            .Object.GetProperty("serial").GetRawText();
        (await service.Ask("confirm", serial)).Exits(0);
        (await service.Ask("locate", "pinbed-1", "--diameter", "40mm")).Exits(1);
        (await service.Ask("fixture", "hold", "pinbed-1", "--by", "@setter", "--why", "=HYPERLINK(\"x\"),\r\nsecond")).Exits(0);
    }

    /// <summary>A reader of RFC 4180, section 2, written for this test.</summary>
    private static List<Dictionary<string, string>> Csv(string text)
    {
        var (records, record, field, quoted) = (new List<List<string>>(), new List<string>(), new StringBuilder(), false);
        for (var i = 0; i < text.Length; i++)
        {
            if (quoted && text[i] == '"' && i + 1 < text.Length && text[i + 1] == '"')
            {
                field.Append(text[i++]);
            }
            else if (text[i] == '"')
            {
                quoted = !quoted;
            }
            else if (!quoted && text[i] is ',' or '\r' && !quoted)
            {
                record.Add(field.ToString());
                field.Clear();
                if (text[i] == '\r')
                {
                    Assert.Equal('\n', text[++i]);
                    records.Add(record);
                    record = [];
                }
            }
            else
            {
                field.Append(text[i]);
            }
        }

        Assert.All(records, r => Assert.Equal(records[0].Count, r.Count));
        return [.. records.Skip(1).Select(r => records[0].Zip(r).ToDictionary(p => p.First, p => p.Second))];
    }
}
