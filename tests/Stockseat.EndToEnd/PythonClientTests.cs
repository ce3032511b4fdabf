using System.Globalization;
using System.Text.RegularExpressions;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>Clients that have no code in common with the service.</summary>
public abstract partial class PythonClientTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : PythonClientTests(Build.Ordinary);

    public sealed class Native() : PythonClientTests(Build.Native);

    private const int Serving = 1;

    [Fact]
    public async Task Grpc_WithGeneratedStubs_DoesTheJob()
    {
        using var cell = new Cell();
        var stubs = Path.Combine(cell.Folder, "stubs");
        await Python.Generate(stubs);
        await using var service = await Program.Serve(cell);

        var said = (await Python.Run("grpc_client.py", stubs, $"{service.Grpc}")).Exits(0).Object;

        Assert.Equal(0.006308, said.GetProperty("by").GetDouble(), 5e-7);
        Assert.Equal(-0.198692, said.GetProperty("y").GetDouble(), 5e-7);
        Assert.Equal(3, said.GetProperty("revision").GetInt32());
        Assert.Equal(said.GetProperty("recorded").GetInt64(), said.GetProperty("again").GetInt64());
        Assert.Equal(said.GetProperty("recorded").GetInt64(), said.GetProperty("measurement").GetInt64());
        Assert.Equal(said.GetProperty("serial").GetInt64(), said.GetProperty("confirms").GetInt64());
        Assert.True(said.GetProperty("whole").GetBoolean());
        Assert.Equal(Serving, said.GetProperty("health").GetInt32());
        var body = LedgerRows.Read(cell.Data)[said.GetProperty("serial").GetInt32() - 1].Body;
        Assert.Equal(said.GetProperty("digest").GetString(), body.GetProperty("digest").GetString());
        Assert.Equal(said.GetProperty("by").GetDouble(), body.GetProperty("shiftBase")[1].GetDouble());
        var refusal = said.GetProperty("refusal");
        Assert.Equal("OUT_OF_RANGE", refusal.GetProperty("status").GetString());
        Assert.Equal("type.googleapis.com/google.rpc.ErrorInfo", refusal.GetProperty("type").GetString());
        Assert.Equal("DIAMETER_BELOW_ENVELOPE", refusal.GetProperty("reason").GetString());
        Assert.Equal("stockseat", refusal.GetProperty("domain").GetString());
        Assert.NotEmpty(refusal.GetProperty("metadata").EnumerateObject());
    }

    [Fact]
    public async Task Line_OverAPlainSocket_DoesTheJob()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);

        var replies = (await Python.Run("line_client.py", "127.0.0.1", service.Line.Port.ToString(CultureInfo.InvariantCulture),
            "hello", "measured fixture=pinbed-1 diameter=92.40mm lot=A1077", "locate fixture=pinbed-1 lot=A1077 tag=p1",
            "locate fixture=pinbed-1 diameter=92.4")).Exits(0).Out.Split('\n');

        Assert.Equal("ok stockseat line 2", replies[0]);
        Assert.Contains(" diameter=0.092400", replies[1], StringComparison.Ordinal);
        Assert.Contains($" y={BedPick.Y} ", replies[2], StringComparison.Ordinal);
        Assert.Contains($" by={BedPick.By} ", replies[2], StringComparison.Ordinal);
        Assert.StartsWith("refused class=request reason=unit-missing ", replies[3], StringComparison.Ordinal);
    }

    [Fact]
    public async Task LedgerChecker_OfTheReadme_PassesAnIntactLedgerAndNotAChangedOne()
    {
        using var cell = new Cell();
        var readme = await File.ReadAllTextAsync(Path.Combine(Repository.Root, "src", "Stockseat.Ledger", "README.md"));
        var checker = cell.Write("check.py", Assert.Single(PythonBlock().Matches(readme)).Groups["code"].Value);
        await using var service = await Program.Serve(cell);
        var serial = (await service.Ask("locate", "pinbed-1", "--diameter", "92.40mm", "--json")).Exits(0).Object.GetProperty("serial").GetInt64();
        await service.Terminate();
        var ledger = Path.Combine(cell.Data, "ledger.db");
        var head = (await Program.Run("ledger", "verify", "--json", "--data", cell.Data)).Exits(0).Object;

        Assert.Equal(
            $"intact up to entry {head.GetProperty("headSerial")} with head {head.GetProperty("headHash").GetString()}",
            (await Python.Run(checker, ledger)).Exits(0).Out.Trim());
        LedgerRows.ChangeOneDigit(cell.Data, serial);
        (await Python.Run(checker, ledger)).Fails(1, $"entry {serial} does not follow from the one before");
    }

    [GeneratedRegex(@"^```python tested by PythonClientTests\n(?<code>.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex PythonBlock();
}
