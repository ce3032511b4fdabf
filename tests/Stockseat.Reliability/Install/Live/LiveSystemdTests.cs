using System.Globalization;
using Stockseat.EndToEnd.Support;
using Stockseat.Tests.Support;

namespace Stockseat.Reliability.Install.Live;

/// <summary>The package under a running systemd: installed, started, killed, hung, misconfigured, upgraded, removed and purged.</summary>
public sealed class LiveSystemdTests(MadePackage made) : IDisposable
{
    private const string AsTheService = "setpriv --reuid stockseat --regid stockseat --clear-groups";
    private const string Doctor = $"{AsTheService} stockseat doctor --config /etc/stockseat/stockseat.json --data /var/lib/stockseat";

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("stockseat-live-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Package_ThroughItsLife()
    {
        await Package.Later(await made.In(_folder.FullName, "first.deb"), "99.0");
        await using var booted = await Booted.Start(_folder.FullName);

        await Installs(booted);
        await StartsAndAnswersInsideItsLimits(booted);
        await ComesBackAfterAKillAndAHang(booted);
        await SaysWhatIsWrongWithAConfiguration(booted);
        await RefusesOnAFullDisk(booted);
        await UpgradesUnderLoad(booted);
        await ComesBackAfterARestartOfTheMachine(booted);
        await IsRemovedAndPurged(booted);
    }

    [Fact]
    public async Task Package_OverAnInstallationOfTheScript_IsRefused()
    {
        await made.In(_folder.FullName, "first.deb");
        await using var booted = await Booted.Start(_folder.FullName);
        await booted.Shell("printf '[Service]\\nExecStart=/opt/stockseat/stockseat serve\\n' >/etc/systemd/system/stockseat.service");

        var run = await booted.Run("dpkg", "-i", "/srv/bound/first.deb");

        Assert.NotEqual(0, run.ExitCode);
        Assert.Contains("Run its remove.sh first", run.Err, StringComparison.Ordinal);
        await booted.Shell("! test -e /usr/lib/stockseat/stockseat");
    }

    private static async Task Installs(Booted booted)
    {
        await booted.Shell("dpkg -i /srv/bound/first.deb 2>&1");
        Assert.Equal("inactive", await booted.Show("ActiveState"));
        Assert.Equal("root:stockseat 640\nroot:stockseat 750", await booted.Shell("stat -c '%U:%G %a' /etc/stockseat/stockseat.json /etc/stockseat/fixtures"));
        Assert.Contains("is free", await booted.Shell(Doctor), StringComparison.Ordinal);
        Assert.Equal("roll", await booted.Shell("source /usr/share/bash-completion/completions/stockseat; COMP_LINE='stockseat ledger ro'; "
            + "COMP_POINT=${#COMP_LINE}; COMP_WORDS=(stockseat ledger ro); COMP_CWORD=2; _stockseat; echo \"${COMPREPLY[*]}\""));
        await booted.Shell("sed -i 's/\"Name\": \"bench\"/\"Name\": \"edited-bench\"/' /etc/stockseat/stockseat.json"
            + " && grep -q edited-bench /etc/stockseat/stockseat.json");
    }

    private static async Task StartsAndAnswersInsideItsLimits(Booted booted)
    {
        await booted.Shell("systemctl enable --now stockseat");
        Assert.Equal("active notify", $"{await booted.Show("ActiveState")} {await booted.Show("Type")}");
        Assert.StartsWith("ok tag=1 ", await booted.Shell(Booted.Ask), StringComparison.Ordinal);
        Assert.Contains("serial", await booted.Shell("stockseat locate pinbed-1 --diameter 92.40mm --json"), StringComparison.Ordinal);
        Assert.Contains("is listening", await booted.Shell(Doctor), StringComparison.Ordinal);
        Assert.Equal("CapEff: 0000000000000000 NoNewPrivs: 1 Seccomp: 2", await booted.Shell(
            "grep -E '^(NoNewPrivs|Seccomp|CapEff):' /proc/$(systemctl show stockseat --property=MainPID --value)/status | tr -s '\\t' ' ' | xargs"));
        await booted.Shell("systemd-analyze security stockseat --no-pager --threshold=19");
    }

    private static async Task ComesBackAfterAKillAndAHang(Booted booted)
    {
        await booted.Shell("kill -9 $(systemctl show stockseat --property=MainPID --value)");
        await booted.Until("NRestarts", "1");
        await booted.Until("ActiveState", "active");
        Assert.StartsWith("ok ", await booted.Shell(Booted.Ask), StringComparison.Ordinal);
        await booted.Shell("systemctl stop stockseat");
        Assert.Equal("0 success", $"{await booted.Show("ExecMainStatus")} {await booted.Show("Result")}");

        await booted.Shell("mkdir -p /etc/systemd/system/stockseat.service.d; printf '[Service]\\nWatchdogSec=2\\n' "
            + ">/etc/systemd/system/stockseat.service.d/50-test.conf; systemctl daemon-reload; systemctl start stockseat");
        await booted.Shell("kill -STOP $(systemctl show stockseat --property=MainPID --value)");
        await booted.Until("NRestarts", "1");
        await booted.Until("ActiveState", "active");
        Assert.Contains("Watchdog timeout", await booted.Shell("journalctl -u stockseat -q --no-pager"), StringComparison.Ordinal);
        await booted.Shell("rm -r /etc/systemd/system/stockseat.service.d; systemctl daemon-reload; systemctl restart stockseat");
    }

    private static async Task SaysWhatIsWrongWithAConfiguration(Booted booted)
    {
        await booted.Shell(
            "cp -p /etc/stockseat/stockseat.json /root/ && echo '{ \"Colour\": 1 }' >/etc/stockseat/stockseat.json && ! systemctl restart stockseat");
        await booted.Until("ActiveState", "failed");
        Assert.Equal("64", await booted.Show("ExecMainStatus"));
        Assert.Contains("Colour", await booted.Shell("journalctl -u stockseat -q --no-pager -p err -o cat"), StringComparison.Ordinal);
        Assert.Contains("Colour", await booted.Shell("systemctl status stockseat --no-pager || :"), StringComparison.Ordinal);
        Assert.Equal(64, (await booted.Run("/bin/sh", "-c", Doctor)).ExitCode);
        await booted.Shell("cp -p /root/stockseat.json /etc/stockseat/; systemctl restart stockseat");
        Assert.StartsWith("ok ", await booted.Shell(Booted.Ask), StringComparison.Ordinal);
    }

    private static async Task RefusesOnAFullDisk(Booted booted)
    {
        await booted.Shell("systemctl stop stockseat; mount -t tmpfs -o size=16m tmpfs /var/lib/stockseat; chown stockseat: /var/lib/stockseat; "
            + "chmod 750 /var/lib/stockseat; systemctl start stockseat");
        Assert.StartsWith("ok ", await booted.Shell(Booted.Ask), StringComparison.Ordinal);
        await booted.Shell("! dd if=/dev/zero of=/var/lib/stockseat/fill bs=4k status=none");
        Assert.Contains("reason=ledger-unavailable", await booted.Shell($"for i in $(seq 50); do {Booted.Ask}; done | tail -n 1"), StringComparison.Ordinal);
        Assert.Equal("active", await booted.Show("ActiveState"));

        await booted.Shell("rm /var/lib/stockseat/fill");
        await Deadline.Until(async () => (await booted.Shell(Booted.Ask)).StartsWith("ok ", StringComparison.Ordinal),
            "an answer after the disk has room again");
        await Verifies(booted);
        await booted.Shell("systemctl stop stockseat; umount /var/lib/stockseat; systemctl start stockseat");
    }

    /// <summary>While somebody goes on asking, each answer that came is in the ledger.</summary>
    private static async Task UpgradesUnderLoad(Booted booted)
    {
        var before = await booted.Show("MainPID");
        await booted.Shell($"systemd-run --quiet --unit=asking /bin/bash -c 'while :; do ({Booted.Ask.Replace("'", "\"", StringComparison.Ordinal)}); done "
            + ">/root/replies 2>/dev/null'");
        await Deadline.Until(() => Replied(booted, 0), "an answer before the upgrade");
        await booted.Shell("dpkg -i /srv/bound/later.deb 2>&1");
        Assert.Equal("active", await booted.Show("ActiveState"));
        Assert.NotEqual(before, await booted.Show("MainPID"));
        var upgraded = await Answers(booted);
        await Deadline.Until(() => Replied(booted, upgraded), "an answer after the upgrade");
        await booted.Shell("systemctl stop asking");

        await booted.Shell("grep -q edited-bench /etc/stockseat/stockseat.json");
        Assert.Equal("root:stockseat 640", await booted.Shell("stat -c '%U:%G %a' /etc/stockseat/stockseat.json"));
        await booted.Shell(
            $"{AsTheService} stockseat ledger list --data /var/lib/stockseat --kind answer --json | grep -o '\"serial\":[0-9]*' | cut -d : -f 2 | sort "
                + $">/root/kept");
        Assert.Equal("", await booted.Shell("sed -n 's/^ok .*serial=\\([0-9]*\\).*/\\1/p' /root/replies | sort | comm -23 - /root/kept"));
        await Verifies(booted);
    }

    private static async Task<bool> Replied(Booted booted, int since) => await Answers(booted) > since;

    private static async Task<int> Answers(Booted booted) =>
        int.Parse(await booted.Shell("grep -c '^ok ' /root/replies || :"), CultureInfo.InvariantCulture);

    private static async Task ComesBackAfterARestartOfTheMachine(Booted booted)
    {
        const string Unclean = $"{AsTheService} stockseat ledger list --data /var/lib/stockseat --kind unclean-stop --json | wc -l";
        var before = await booted.Shell(Unclean);
        await booted.Restart();
        await booted.Until("ActiveState", "active");
        Assert.StartsWith("ok ", await booted.Shell(Booted.Ask), StringComparison.Ordinal);
        Assert.Equal(before, await booted.Shell(Unclean));
        await Verifies(booted);
    }

    private static async Task Verifies(Booted booted)
    {
        await booted.Shell($"{AsTheService} stockseat ledger verify --data /var/lib/stockseat");
        await booted.Shell($"{AsTheService} stockseat ledger replay --data /var/lib/stockseat");
    }

    private static async Task IsRemovedAndPurged(Booted booted)
    {
        await booted.Shell("dpkg --remove stockseat 2>&1");
        await booted.Shell(
            "! test -e /usr/bin/stockseat && ! pgrep -x stockseat && test -e /etc/stockseat/stockseat.json && test -e /var/lib/stockseat/ledger.db");
        var said = await booted.Shell("dpkg --purge stockseat 2>&1");
        Assert.Contains("kept: /var/lib/stockseat", said, StringComparison.Ordinal);
        await booted.Shell("! test -e /etc/stockseat && test -e /var/lib/stockseat/ledger.db && getent passwd stockseat");

        // Without a ledger nothing stays.
        await booted.Shell("rm -r /var/lib/stockseat; dpkg -i /srv/bound/first.deb 2>&1; dpkg --purge stockseat 2>&1");
        Assert.Equal("", await booted.Shell("ls -d /etc/stockseat /var/lib/stockseat /usr/lib/stockseat /usr/share/doc/stockseat "
            + "/etc/systemd/system/*/stockseat* /lib/systemd/system/stockseat* 2>/dev/null; getent passwd stockseat; getent group stockseat; true"));
    }
}
