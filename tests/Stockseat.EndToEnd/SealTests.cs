using System.Text.RegularExpressions;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>Seals and anchors as install/README.md tells them: the commands are taken from it.</summary>
public abstract partial class SealTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : SealTests(Build.Ordinary);

    public sealed class Native() : SealTests(Build.Native);

    private static readonly string[] Recipes = [.. Blocks().Matches(Section()).Select(m => m.Groups["commands"].Value)];

    private static string MakeKey => Recipes[0];

    private static string CheckAnchor => Recipes[1];

    private static string CheckSeal => Recipes[2];

    [Fact]
    public async Task ReadmeRecipes_LetOpensslAloneCheckAnchorAndSeal()
    {
        using var cell = new Cell();
        var fingerprint = await Key(cell);
        await using var service = await Program.Serve(cell);
        (await service.Ask("locate", "pinbed-1", "--diameter", "92.40mm")).Exits(0);
        Assert.Contains($"sealed by key {fingerprint[..12]}, ", (await service.Ask("fixture", "list")).Exits(0).Out, StringComparison.Ordinal);

        var anchor = (await OpenSsl.Shell(Program, cell.Folder, CheckAnchor, $"http://{service.Grpc}")).Exits(0);
        var seal = (await OpenSsl.Shell(Program, cell.Folder, CheckSeal, $"http://{service.Grpc}")).Exits(0);

        Assert.Equal(("Verified OK", "Verified OK"), (anchor.Out.Trim(), seal.Out.Trim()));
        Assert.Contains($"by key {fingerprint[..12]}; keep it outside this machine", anchor.Err, StringComparison.Ordinal);
        Assert.Contains($"key {fingerprint}\n", File.ReadAllText(Path.Combine(cell.Folder, "anchor.txt")), StringComparison.Ordinal);
        Assert.Contains(", 0 entries unsealed", (await service.Ask("fixture", "list")).Exits(0).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ReadmeRecipes_FindAChangedByte()
    {
        using var cell = new Cell();
        await Key(cell);
        await using var service = await Program.Serve(cell);
        var changed = CheckAnchor.Replace("head -n 5 anchor.txt", "sed 's/^serial ./serial 9/' anchor.txt | head -n 5", StringComparison.Ordinal);
        Assert.NotEqual(CheckAnchor, changed);

        Assert.Equal("Verification failure", (await OpenSsl.Shell(Program, cell.Folder, changed, $"http://{service.Grpc}")).Exits(1).Out.Trim());
    }

    [Fact]
    public async Task Stop_IsSealedLast_AndTheNextStartFindsACleanStop()
    {
        using var cell = new Cell();
        await Key(cell);
        await using (var first = await Program.Serve(cell))
        {
            (await first.Ask("locate", "pinbed-1", "--diameter", "92.40mm")).Exits(0);
            Assert.Equal(0, (await first.Terminate()).ExitCode);
        }

        Assert.Equal(["answer", "snapshot", "service-stopped", "seal"], LedgerRows.Read(cell.Data).TakeLast(4).Select(r => r.Kind));
        var local = CheckAnchor.Replace("ledger anchor", "ledger anchor --data data", StringComparison.Ordinal);
        var anchor = (await OpenSsl.Shell(Program, cell.Folder, local)).Exits(0);
        Assert.Equal("Verified OK", anchor.Out.Trim());
        Assert.DoesNotContain("not covered", anchor.Err, StringComparison.Ordinal);

        await using var second = await Program.Serve(cell);
        Assert.DoesNotContain(LedgerRows.Read(cell.Data), r => r.Kind == "unclean-stop");
        Assert.Contains("; 1 entry after it not covered", (await Program.Run("ledger", "anchor", "--data", cell.Data)).Exits(0).Err, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Verify_WithADeviceAsAnAnchorOrAKey_DoesNotReadIt()
    {
        using var cell = new Cell();
        (await Program.Run("ledger", "verify", "--data", cell.Data, "--against", "/dev/zero"))
            .Fails(2, "/dev/zero can't be used as an anchor: it is not a regular file");
        (await Program.Run("ledger", "verify", "--data", cell.Data, "--key", "/dev/zero"))
            .Fails(2, "/dev/zero can't be used as a key: it is not a regular file");
        (await Program.Run("ledger", "verify", "--data", cell.Data, "--key", "nowhere.pem"))
            .Fails(2, "nowhere.pem can't be used as a key: it can't be read: it does not exist");
    }

    [Fact]
    public async Task Anchor_WithoutAKey_IsTheUnsignedHeadAndSaysSo()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        var head = LedgerRows.Read(cell.Data)[^1];

        var asked = (await service.Ask("ledger", "anchor")).Exits(0);
        var read = (await Program.Run("ledger", "anchor", "--data", cell.Data)).Exits(0);

        Assert.Equal(asked.Out, read.Out);
        Assert.Matches($"^stockseat seal 1\nledger [0-9a-f-]{{36}}\nserial {head.Serial}\nhash [0-9a-f]{{64}}\nat [0-9T:.-]+Z\n$", asked.Out);
        Assert.All([asked, read], r => Assert.Contains($"this is the head, entry {head.Serial}, without a signature", r.Err, StringComparison.Ordinal));
        Assert.Contains(", not sealed", (await service.Ask("fixture", "list")).Exits(0).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Anchor_IsNeverOverwritten()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        var file = cell.Write("anchor.txt", "kept");

        (await service.Ask("ledger", "anchor", "--output", file)).Fails(2, "an anchor is never overwritten; name a new file");

        Assert.Equal("kept", File.ReadAllText(file));
        Assert.Empty(Directory.EnumerateFiles(cell.Folder, "*.part"));
    }

    [Theory]
    [InlineData("chmod 644 seal.pem", "take their rights away (chmod 600")]
    [InlineData("cp seal.pub seal.pem", "is a public key, which can't seal")]
    [InlineData("rm seal.pem", "does not exist; make one as install/README.md shows")]
    [InlineData("head -c 100 seal.pem > half; cat half > seal.pem", "is not a private key on the curve P-256")]
    [InlineData("openssl genpkey -algorithm EC -pkeyopt ec_paramgen_curve:P-384 -out seal.pem", "is not on the curve P-256")]
    [InlineData("mkdir data; mv seal.pem data/; ln -s data/seal.pem seal.pem", "is in the data folder")]
    public async Task Serve_UnusableKey_Exits64AndSaysWhatToDo(string spoil, string said)
    {
        using var cell = new Cell();
        await Key(cell);
        (await OpenSsl.Shell(Program, cell.Folder, spoil)).Exits(0);

        (await Program.Run("serve", "--config", cell.Config, "--data", cell.Data)).Fails(64, said);

        Assert.False(File.Exists(Path.Combine(cell.Data, "ledger.db")));
        var settings = (await Program.Run("settings", "--config", cell.Config)).Exits(0).Out;
        Assert.Contains("seal.pem", settings, StringComparison.Ordinal);
        Assert.DoesNotContain("PRIVATE KEY", settings, StringComparison.Ordinal);
    }

    /// <summary>Makes a key as the README says and configures it; returns the digits that are printed.</summary>
    private async Task<string> Key(Cell cell)
    {
        var made = (await OpenSsl.Shell(Program, cell.Folder, MakeKey)).Exits(0);
        var text = File.ReadAllText(cell.Config);
        Assert.Contains("\"FirstAdoption\"", text, StringComparison.Ordinal);
        cell.Write(
            "config/stockseat.json",
            text.Replace("\"FirstAdoption\"", "\"Ledger\": { \"SealKey\": \"../seal.pem\" },\n  \"FirstAdoption\"", StringComparison.Ordinal));
        return made.Out.Trim()[^64..];
    }

    private static string Section()
    {
        var text = File.ReadAllText(Path.Combine(Repository.Root, "install", "README.md"));
        var from = text.IndexOf("## Sealing and anchors", StringComparison.Ordinal);
        return text[from..text.IndexOf("\n## ", from + 1, StringComparison.Ordinal)];
    }

    [GeneratedRegex(@"```sh tested by SealTests\n(?<commands>.*?)```", RegexOptions.Singleline)]
    private static partial Regex Blocks();
}
