using System.Globalization;
using System.Text.RegularExpressions;
using Stockseat.EndToEnd.Support;

namespace Stockseat.Reliability.Install.Live;

/// <summary>What install/moving.md says to type, in its order, under a running systemd.</summary>
public sealed partial class LiveMovingTests(MadePackage made) : IDisposable
{
    /// <summary>Root without a sudo, and what a later block uses from an earlier one.</summary>
    private const string Before = """
        set -e -o pipefail
        sudo() {
          if [ "$1" = -u ]; then local user=$2; shift 2; setpriv --reuid "$user" --regid "$user" --clear-groups "$@"; else "$@"; fi
        }
        if [ -e /root/saved ]; then . /root/saved; fi
        cd /root

        """;

    private const string After = "\nif [ -n \"${saved:-}\" ]; then echo \"saved=$saved\" >/root/saved; fi";

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("stockseat-moving-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task EveryStep_DoesWhatThePageSays()
    {
        var (save, putBack, leave, arrive, upgrade, back) = Steps();
        await Package.Later(await made.In(_folder.FullName, "first.deb"), "99.0");
        await using var booted = await Booted.Start(_folder.FullName);
        await booted.Shell("cp /srv/bound/first.deb /root/stockseat_old_amd64.deb; cp /srv/bound/later.deb /root/stockseat_new_amd64.deb; "
            + "apt-get install -y /root/stockseat_old_amd64.deb 2>&1; systemctl enable --now stockseat");
        var saved = await Serial(booted);

        var runs = await booted.Show("MainPID");
        await booted.Shell(Before + save + After);
        Assert.Equal(runs, await booted.Show("MainPID"));
        Assert.True(await Serial(booted) > saved);
        Assert.Equal("root:root 600", await booted.Shell(". /root/saved; stat -c '%U:%G %a' $saved/configuration.tar.gz"));

        await booted.Shell("echo damaged >/var/lib/stockseat/ledger.db; rm -f /var/lib/stockseat/ledger.db-*");
        await booted.Shell(Before + putBack + After);
        Assert.InRange(await Serial(booted), saved + 1, saved + 10); // Entries of the service itself are in between.

        var last = await Serial(booted);
        await booted.Shell(Before + leave + After);
        Assert.Equal("inactive disabled", $"{await booted.Show("ActiveState")} {await booted.Show("UnitFileState")}");
        await booted.Shell("dpkg --purge stockseat 2>&1; rm -rf /etc/stockseat /var/lib/stockseat*; userdel stockseat; "
            + "useradd --system takes-its-number; apt-get install -y /root/stockseat_old_amd64.deb 2>&1");
        await booted.Shell(Before + arrive + After);
        Assert.InRange(await Serial(booted), last + 1, last + 10);
        Assert.Equal("enabled", await booted.Show("UnitFileState"));

        Assert.Contains("pinbed-1", await booted.Shell(Before + upgrade + After), StringComparison.Ordinal);
        Assert.Equal("99.0", await Installed(booted));
        await booted.Shell(Before + back + After);
        Assert.NotEqual("99.0", await Installed(booted));
        Assert.True(await Serial(booted) > last);
        await booted.Shell("setpriv --reuid stockseat --regid stockseat --clear-groups stockseat ledger verify --data /var/lib/stockseat");
    }

    private static (string Save, string PutBack, string Leave, string Arrive, string Upgrade, string Back) Steps()
    {
        var page = File.ReadAllText(Path.Combine(Repository.Root, "install", "moving.md"));
        var blocks = Blocks().Matches(page).Select(m => m.Groups[1].Value).ToList();
        Assert.Equal(6, blocks.Count);
        return (blocks[0], blocks[1], blocks[2], blocks[3], blocks[4], blocks[5]);
    }

    /// <summary>The serial of an answer that is asked for now.</summary>
    private static async Task<long> Serial(Booted booted) => long.Parse(
        Answer().Match(await booted.Shell("stockseat locate pinbed-1 --diameter 92.40mm --json")).Groups[1].Value, CultureInfo.InvariantCulture);

    private static Task<string> Installed(Booted booted) => booted.Shell("dpkg-query -W -f '${Version}' stockseat");

    [GeneratedRegex("```sh tested by LiveMovingTests\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex Blocks();

    [GeneratedRegex("\"serial\":(\\d+)")]
    private static partial Regex Answer();
}
