using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;

namespace Stockseat.Reliability.Install;

/// <summary>The scripts remove and change only what they made, and nothing that merely looks similar.</summary>
public sealed class NeighboursTests : IDisposable
{
    private readonly Scratch _scratch = new();

    public void Dispose() => _scratch.Dispose();

    [Fact]
    public async Task Remove_FoldersWithSimilarNames_Stay()
    {
        Needs.Linux();
        await Stage("install.sh", _scratch.Publish("one"));
        string[] others = ["stockseat-archive-20261125", "stockseat-2026112520261125", "stockseat-0123456789ABCDEF", "stockseat-notes", "stockseat.old"];
        foreach (var other in others)
        {
            Directory.CreateDirectory(_scratch.Below($"opt/{other}"));
            File.WriteAllText(_scratch.Below($"opt/{other}/kept"), "by the site");
        }

        await Stage("remove.sh");
        Assert.Equal(others.Order(StringComparer.Ordinal), Names("opt"));
        Assert.All(others, o => Assert.True(File.Exists(_scratch.Below($"opt/{o}/kept"))));
    }

    [Fact]
    public async Task Remove_AProgramWithoutALinkToIt_IsRemoved()
    {
        Needs.Linux();
        await Stage("install.sh", _scratch.Publish("one"));
        await Stage("install.sh", _scratch.Publish("two"));
        File.Delete(_scratch.Below("opt/stockseat.previous"));
        File.AppendAllText(_scratch.Below("opt/stockseat/libe_sqlite3.so"), "changed since"); // still the program in use

        await Stage("remove.sh");
        Assert.Empty(Names("opt"));
    }

    [Fact]
    public async Task Remove_AFolderOfTheSiteInTheProgramsPlace_Stays()
    {
        Needs.Linux();
        Directory.CreateDirectory(_scratch.Below("opt/stockseat"));
        File.WriteAllText(_scratch.Below("opt/stockseat/notes.txt"), "by the site");

        Assert.Contains("holds no program", (await Stage("remove.sh")).Out, StringComparison.Ordinal);
        Assert.True(File.Exists(_scratch.Below("opt/stockseat/notes.txt")));

        File.WriteAllText(_scratch.Below("opt/stockseat/stockseat"), "an older way to install it");
        await Stage("remove.sh");
        Assert.Empty(Names("opt"));
    }

    [Fact]
    public async Task Upgrade_APreviousProgramElsewhere_IsNotRemoved()
    {
        Needs.Linux();
        await Stage("install.sh", _scratch.Publish("one"));
        Directory.CreateDirectory(_scratch.Below("opt/tools"));
        File.CreateSymbolicLink(_scratch.Below("opt/stockseat.previous"), "/srv/tools");

        await Stage("install.sh", _scratch.Publish("two"));
        Assert.True(Directory.Exists(_scratch.Below("opt/tools")));
    }

    [Fact]
    public async Task Install_APrivateFile_StaysPrivate()
    {
        Needs.Linux();
        await Stage("install.sh", _scratch.Publish("one"), Config());
        Assert.Equal(
            ["drawings lrwxrwxrwx", "fixtures drwxr-x---", "private drwx------", "seal.pem -r--------", "spare.pem -rw-------", "stockseat.json -rw-r-----"],
            (await Tool.Run("stat", ["-c", "%n %A", .. Names("etc/stockseat").Select(n => _scratch.Below($"etc/stockseat/{n}"))])).Exits(0).Out
                .Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => l[(_scratch.Below("etc/stockseat").Length + 1)..]));
        Assert.Equal("-rw-rw-rw-", (await Tool.Run("stat", ["-c", "%A", _scratch.Below("drawing")])).Exits(0).Out.Trim()); // A link's target is the site's.
    }

    [Fact]
    public async Task Installed_APrivateFile_BelongsToTheService()
    {
        await _scratch.Prepare();
        (await _scratch.Install("install.sh", _scratch.Publish("one"), Config())).Exits(0);
        var owners = (await _scratch.Inside("stat", "-c", "%n %U:%G %a", "/etc/stockseat/seal.pem", "/etc/stockseat/stockseat.json",
            "/etc/stockseat/private/key.pem")).Exits(0).Out;
        Assert.Equal(
            "/etc/stockseat/seal.pem stockseat:stockseat 400\n/etc/stockseat/stockseat.json root:stockseat 640\n/etc/stockseat/private/key.pem "
            + "stockseat:stockseat 600\n", owners);
        Assert.Equal("root", (await Tool.Run("stat", ["-c", "%U", _scratch.Below("drawing")])).Exits(0).Out.Trim());
    }

    [Fact]
    public async Task Purge_APersonsAccountOfThatName_Stays()
    {
        await _scratch.Prepare();
        (await _scratch.Inside("useradd", "--create-home", "--home-dir", "/var/lib/person", "stockseat")).Exits(0);
        (await _scratch.Install("install.sh", _scratch.Publish("one"), Scratch.Config)).Exits(0);
        (await _scratch.Install("remove.sh", "--purge")).Exits(0);
        Assert.Equal(0, (await _scratch.Inside("getent", "passwd", "stockseat")).ExitCode);
    }

    /// <summary>The demo's configuration with keys, a private folder and a link, as a site may have them.</summary>
    private string Config()
    {
        var folder = Directory.CreateDirectory(_scratch.Below("config")).FullName;
        Directory.CreateDirectory(Path.Combine(folder, "fixtures"));
        Directory.CreateDirectory(Path.Combine(folder, "private"));
        foreach (var (file, mode) in new[] { ("stockseat.json", 0b110_100_100), ("seal.pem", 0b100_000_000), ("spare.pem", 0b110_000_000),
            ("private/key.pem", 0b110_000_000), ("../drawing", 0b110_110_110) })
        {
            var path = Path.GetFullPath(Path.Combine(folder, file));
            File.WriteAllText(path, file == "stockseat.json" ? "{}" : file);
            Mode(path, mode);
        }

        Mode(Path.Combine(folder, "private"), 0b111_000_000);
        File.CreateSymbolicLink(Path.Combine(folder, "drawings"), _scratch.Below("drawing"));
        return folder;
    }

    private static void Mode(string path, int mode)
    {
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(path, (UnixFileMode)mode);
        }
    }

    private async Task<Run> Stage(string script, params string[] arguments) => (await _scratch.Stage(script, arguments)).Exits(0);

    private IEnumerable<string> Names(string folder) =>
        Directory.EnumerateFileSystemEntries(_scratch.Below(folder)).Select(e => Path.GetFileName(e)).Order(StringComparer.Ordinal);
}
