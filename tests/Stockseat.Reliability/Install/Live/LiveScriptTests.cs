using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;

namespace Stockseat.Reliability.Install.Live;

/// <summary>install.sh and remove.sh under a running systemd, with the native program.</summary>
public sealed class LiveScriptTests : IDisposable
{
    private const string Install = "/srv/bound/install/linux/install.sh";
    private const string Remove = "/srv/bound/install/linux/remove.sh";

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("stockseat-script-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Scripts_ThroughAnUpgradeThatFailsAndTheWayBack()
    {
        var native = Built.Native.Folder;
        (await Tool.Run("cp", ["-r", Path.Combine(Repository.Root, "install"), Path.Combine(Repository.Root, "config"), _folder.FullName])).Exits(0);
        foreach (var name in (string[])["one", "two", "broken"])
        {
            var folder = _folder.CreateSubdirectory(name).FullName;
            File.Copy(Path.Combine(native, "libe_sqlite3.so"), Path.Combine(folder, "libe_sqlite3.so"));
            File.Copy(name == "broken" ? "/bin/false" : Path.Combine(native, "stockseat"), Path.Combine(folder, "stockseat"));
            File.WriteAllText(Path.Combine(folder, "build"), name);
        }

        await using var booted = await Booted.Start(_folder.FullName);
        await booted.Shell($"{Install} /srv/bound/one /srv/bound/config && systemctl enable --now stockseat");
        Assert.Equal("one", await InForce(booted));

        await booted.Shell($"{Install} /srv/bound/two");
        Assert.Equal("two", await InForce(booted));

        var failed = (await booted.Run(Install, "/srv/bound/broken")).Exits(2).Err;
        Assert.Contains("does not start with the new program", failed, StringComparison.Ordinal);
        await booted.Shell(failed.Split("To go back: ")[1].Trim());
        Assert.Equal("two", await InForce(booted));
        Assert.Equal("1", await booted.Shell("ls -d /opt/stockseat-* | wc -l"));

        await booted.Shell(Remove);
        await booted.Shell("! pgrep -x stockseat && ! test -e /opt/stockseat && test -e /var/lib/stockseat/ledger.db && test -e /etc/stockseat/stockseat.json");
        await booted.Shell($"{Remove} --purge");
        Assert.Equal("", await booted.Shell(
            "ls -d /opt/stockseat* /etc/stockseat /var/lib/stockseat /etc/systemd/system/stockseat* 2>/dev/null; getent passwd stockseat; true"));
    }

    /// <summary>Which program answers.</summary>
    private static async Task<string> InForce(Booted booted)
    {
        Assert.StartsWith("ok ", await booted.Shell(Booted.Ask), StringComparison.Ordinal);
        return await booted.Shell("cat \"$(dirname \"$(readlink /proc/$(systemctl show stockseat --property=MainPID --value)/exe)\")/build\"");
    }
}
