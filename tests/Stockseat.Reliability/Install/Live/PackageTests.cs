using System.Security.Cryptography;
using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;

namespace Stockseat.Reliability.Install.Live;

/// <summary>The package as Debian's own tools see it.</summary>
public sealed class PackageTests(MadePackage made) : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("stockseat-package-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Lintian_HasNothingToSay()
    {
        Needs.Programs("lintian");
        var package = await made.In(_folder.FullName);

        var run = await Tool.RunFor(TimeSpan.FromMinutes(3), "lintian", ["--fail-on", "error,warning", "--allow-root", package]);

        Assert.Equal((0, ""), (run.ExitCode, run.Out.Trim()));
    }

    [Fact]
    public async Task TwoBuilds_AreTheSame()
    {
        var (one, two) = (_folder.CreateSubdirectory("one").FullName, _folder.CreateSubdirectory("two").FullName);

        Assert.Equal(await Digest(await made.In(one)), await Digest(await Package.Make(two)));
    }

    private static async Task<string> Digest(string package) => Convert.ToHexString(SHA256.HashData(await File.ReadAllBytesAsync(package)));

    [Fact]
    public async Task EveryCommand_HasAManualPage()
    {
        var files = (await Tool.Run("dpkg-deb", ["--contents", await made.In(_folder.FullName)])).Exits(0).Out;

        Assert.All(["stockseat", "stockseat-serve", "stockseat-doctor", "stockseat-locate", "stockseat-fixture-adopt", "stockseat-ledger-review",
            "stockseat-certificate-issue"], page => Assert.Contains($"./usr/share/man/man1/{page}.1.gz", files, StringComparison.Ordinal));
        Assert.DoesNotContain(".dbg", files, StringComparison.Ordinal);
        Assert.DoesNotContain(".pdb", files, StringComparison.Ordinal);
    }

    [Fact]
    public async Task TheOrdinaryBuild_IsRefused()
    {
        Needs.Programs("dpkg-deb", "strip");
        var ordinary = _folder.CreateSubdirectory("ordinary").FullName;
        foreach (var file in (string[])["stockseat", "libe_sqlite3.so", "stockseat.dll"])
        {
            File.Copy("/bin/true", Path.Combine(ordinary, file));
        }

        var run = await Tool.Run("/bin/sh", [Path.Combine(Scratch.Scripts, "package.sh"), ordinary, _folder.FullName]);
        Assert.Contains("Publish the native program", run.Exits(64).Err, StringComparison.Ordinal);
    }
}
