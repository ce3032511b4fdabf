using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;

namespace Stockseat.Reliability.Install;

/// <summary>The scripts for Linux: the site's own files are never changed, and running a script twice has the same result as running it once.</summary>
public class InstallTests
{
    private const string Marked = "{ \"Marked\": \"by the site\" }";

    [Fact]
    public async Task Installed_UpgradedAndRemoved_TheSitesFilesStay()
    {
        using var scratch = new Scratch();
        await scratch.Prepare();
        (await scratch.Install("install.sh", scratch.Publish("one"), Scratch.Config)).Exits(0);
        Assert.Equal(["daemon-reload"], scratch.Told());
        Assert.Equal("one", scratch.InForce());
        Assert.Equal(0, (await scratch.Inside("getent", "passwd", "stockseat")).ExitCode);
        await Mark(scratch);
        (await scratch.Inside("systemctl", "start", "stockseat")).Exits(0);
        scratch.Told();

        // The same again: nothing changes, and the running service is not disturbed.
        var before = Tree(scratch);
        (await scratch.Install("install.sh", scratch.Publish("one"), Scratch.Config)).Exits(0);
        Assert.Equal(["daemon-reload"], scratch.Told());
        Assert.Equal(before, Tree(scratch));

        (await scratch.Install("install.sh", scratch.Publish("two"), Scratch.Config)).Exits(0);
        Assert.Equal(["daemon-reload", "reset-failed stockseat", "restart stockseat"], scratch.Told());
        Assert.Equal("two", scratch.InForce());
        IsMarked(scratch);

        (await scratch.Install("remove.sh")).Exits(0);
        Assert.Equal(["stop stockseat", "disable stockseat", "daemon-reload", "reset-failed stockseat"], scratch.Told());
        Assert.Empty(Directory.EnumerateFileSystemEntries(scratch.Below("opt")));
        Assert.False(File.Exists(scratch.Below("etc/systemd/system/stockseat.service")));
        IsMarked(scratch);

        before = Tree(scratch);
        (await scratch.Install("remove.sh")).Exits(0);
        Assert.DoesNotContain("stop stockseat", scratch.Told());
        Assert.Equal(before, Tree(scratch));

        (await scratch.Install("remove.sh", "--purge")).Exits(0);
        Assert.False(Directory.Exists(scratch.Below("etc/stockseat")));
        Assert.False(Directory.Exists(scratch.Below("var/lib/stockseat")));
        Assert.NotEqual(0, (await scratch.Inside("getent", "passwd", "stockseat")).ExitCode);
        (await scratch.Install("remove.sh", "--purge")).Exits(0);
    }

    [Fact]
    public async Task Staged_TwiceUpgradedAndRemoved_TheSitesFilesStay()
    {
        Needs.Linux();
        using var scratch = new Scratch();
        (await scratch.Stage("install.sh", scratch.Publish("one"), Scratch.Config)).Exits(0);
        Assert.Equal(File.ReadAllText(Path.Combine(Scratch.Config, "stockseat.json")), File.ReadAllText(scratch.Below("etc/stockseat/stockseat.json")));
        await Mark(scratch);
        var before = Tree(scratch);
        (await scratch.Stage("install.sh", scratch.Publish("one"), Scratch.Config)).Exits(0);
        Assert.Equal(before, Tree(scratch));

        foreach (var name in new[] { "two", "three", "two" })
        {
            (await scratch.Stage("install.sh", scratch.Publish(name), Scratch.Config)).Exits(0);
            Assert.Equal(name, scratch.InForce());
            IsMarked(scratch);
        }

        Assert.Equal("three", File.ReadAllText(scratch.Below("opt/stockseat.previous/libe_sqlite3.so")));
        Assert.Equal(4, Directory.EnumerateFileSystemEntries(scratch.Below("opt")).Count());

        (await scratch.Stage("remove.sh")).Exits(0);
        Assert.Empty(Directory.EnumerateFileSystemEntries(scratch.Below("opt")));
        IsMarked(scratch);
        before = Tree(scratch);
        (await scratch.Stage("remove.sh")).Exits(0);
        Assert.Equal(before, Tree(scratch));
        (await scratch.Stage("remove.sh", "--purge")).Exits(0);
        Assert.False(Directory.Exists(scratch.Below("var/lib/stockseat")));
    }

    [Fact]
    public async Task Upgrade_AtEveryMoment_ACompleteProgramIsThere()
    {
        Needs.Linux();
        using var scratch = new Scratch();
        string[] published = [scratch.Publish("one"), scratch.Publish("two")];
        (await scratch.Stage("install.sh", published[0])).Exits(0);
        var program = scratch.Below("opt/stockseat/stockseat");
        for (var i = 1; i <= 6; i++)
        {
            var upgrade = Task.Run(() => scratch.Stage("install.sh", published[i % 2]));
            while (!upgrade.IsCompleted)
            {
                Assert.True(File.Exists(program), "there was no program");
            }

            (await upgrade).Exits(0);
            Assert.Equal(i % 2 == 1 ? "two" : "one", scratch.InForce());
        }
    }

    [Theory]
    [InlineData("install.sh")]
    [InlineData("install.sh", "/nowhere")]
    [InlineData("remove.sh", "everything")]
    public async Task WrongUsage_Exits64AndChangesNothing(string script, params string[] arguments)
    {
        Needs.Linux();
        using var scratch = new Scratch();

        (await scratch.Stage(script, arguments)).Exits(64);

        Assert.Empty(Tree(scratch));
    }

    private static async Task Mark(Scratch scratch)
    {
        Directory.CreateDirectory(scratch.Below("var/lib/stockseat"));
        await File.WriteAllTextAsync(scratch.Below("var/lib/stockseat/ledger.db"), "marked by the service");
        await File.WriteAllTextAsync(scratch.Below("etc/stockseat/stockseat.json"), Marked);
        await File.WriteAllTextAsync(scratch.Below("etc/stockseat/fixtures/pinbed-1/r0003.json"), Marked);
    }

    private static void IsMarked(Scratch scratch)
    {
        Assert.Equal(Marked, File.ReadAllText(scratch.Below("etc/stockseat/stockseat.json")));
        Assert.Equal(Marked, File.ReadAllText(scratch.Below("etc/stockseat/fixtures/pinbed-1/r0003.json")));
        Assert.Equal("marked by the service", File.ReadAllText(scratch.Below("var/lib/stockseat/ledger.db")));
    }

    /// <summary>Every file and folder of Stockseat or of the site, with everything that could differ in it.</summary>
    private static List<string> Tree(Scratch scratch) =>
    [
        .. new[] { "opt", "etc/stockseat", "etc/systemd/system", "var/lib" }.Select(scratch.Below).Where(Directory.Exists)
            .SelectMany(d => Directory.EnumerateFileSystemEntries(d, "*", SearchOption.AllDirectories))
            .Select(e => new FileInfo(e))
            .Select(f =>
                $"{f.FullName} {f.LinkTarget} {f.LastWriteTimeUtc:O} {(OperatingSystem.IsWindows() ? null : f.UnixFileMode)} {(f.Exists ? f.Length : 0)}")
            .Order(StringComparer.Ordinal),
    ];
}
