using System.Diagnostics;
using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;
using Stockseat.Tests.Support;

namespace Stockseat.Reliability.Install.Live;

/// <summary>
/// A running systemd: a container that boots over an overlay of this machine's own root, without a network. What it writes is in memory and gone with it.
/// </summary>
internal sealed class Booted : IAsyncDisposable
{
    private static readonly string[] Groups = ["/sys/fs/cgroup/systemd", "/sys/fs/cgroup/unified", "/sys/fs/cgroup"];

    /// <summary>A line of shell in it that prints the reply to one ask.</summary>
    public const string Ask =
        "exec 3<>/dev/tcp/127.0.0.1/28611; printf 'locate fixture=pinbed-1 diameter=92.40mm tag=1\\n' >&3; read -r -t 20 reply <&3; echo \"$reply\"";

    /// <summary>What starts with the machine starts with this; the services of this machine itself are left out of it.</summary>
    private const string Target = "multi-user.target";

    private readonly string _folder;
    private readonly string _bound;
    private Process? _container;
    private string _leader = "";

    private Booted(string folder, string bound) => (_folder, _bound) = (folder, bound);

    /// <summary>Boots one; where this machine can't, the test is skipped.</summary>
    /// <param name="bound">A folder of this machine that it sees as /srv/bound.</param>
    public static async Task<Booted> Start(string bound)
    {
        Needs.Root();
        Needs.Programs("systemd-nspawn", "nsenter", "mount");
        var folder = Directory.CreateTempSubdirectory("stockseat-booted-").FullName;
        if (await Mounted(folder) is { } cause)
        {
            await Remove(folder);
            Assert.Skip($"no overlay of this machine's root can be mounted here: {cause}");
        }

        var booted = new Booted(folder, bound);
        try
        {
            await booted.Boot();
            await booted.Shell("rm -f /usr/sbin/policy-rc.d"); // An image for containers without an init lets no package start or stop a service.
            return booted;
        }
        catch
        {
            await booted.DisposeAsync();
            throw;
        }
    }

    /// <summary>Runs a command in it, as root.</summary>
    public Task<Run> Run(params string[] command) =>
        Tool.Run("nsenter", ["-t", _leader, "-a", "-r", "-w", "--", "env", "-i", "PATH=/usr/sbin:/usr/bin:/sbin:/bin", "TERM=dumb", .. command]);

    /// <summary>Runs a line of shell in it; it has to succeed. What it prints.</summary>
    public async Task<string> Shell(string line) => (await Run("/bin/bash", "-c", line)).Exits(0).Out.Trim();

    /// <summary>What systemd says of the service.</summary>
    public Task<string> Show(string property) => Shell($"systemctl show stockseat --property={property} --value");

    /// <summary>Waits until systemd says something of the service.</summary>
    public Task Until(string property, string value) => Deadline.Until(async () => await Show(property) == value, $"{property}={value}");

    /// <summary>Restarts it as a machine restarts, and waits until it is up again.</summary>
    public async Task Restart()
    {
        await Run("systemctl", "reboot");
        await _container!.Ends("the container before its restart");
        _container!.Dispose();
        await Boot();
    }

    public async ValueTask DisposeAsync()
    {
        if (_container is { HasExited: false })
        {
            if (_leader.Length > 0)
            {
                await Run("systemctl", "poweroff", "--force");
            }

            try
            {
                await _container.Ends("the container", TimeSpan.FromSeconds(20));
            }
            catch (TimeoutException)
            {
                _container.Kill(entireProcessTree: true);
                await _container.Ends("the container that was killed");
            }
        }

        _container?.Dispose();
        await Remove(_folder);
        foreach (var group in Groups.SelectMany(g => new[] { $"{g}/payload", $"{g}/supervisor" }).Where(Directory.Exists))
        {
            await Tool.Run("find", [group, "-depth", "-type", "d", "-exec", "rmdir", "{}", ";"]);
        }
    }

    private async Task Boot()
    {
        _leader = "";
        _container = Tool.Start("systemd-nspawn",
        [
            "-D", Path.Combine(_folder, "root"), "--boot", "--register=no", "--keep-unit", "--private-network", "--console=pipe",
            $"--machine={Path.GetFileName(_folder)}", $"--bind-ro={_bound}:/srv/bound", "--", $"--unit={Target}",
        ]);
        _ = _container.StandardOutput.ReadToEndAsync();
        var said = _container.StandardError.ReadToEndAsync();
        _container.StandardInput.Close();
        await Deadline.Until(IsUp, "the end of the container's boot");
        Assert.SkipWhen(_container.HasExited, $"no container can be booted here: {(_container.HasExited ? await said : "")}");
    }

    private async Task<bool> IsUp()
    {
        if (_container!.HasExited)
        {
            return true;
        }

        _leader = (await Tool.Run("ps", ["-o", "pid=", "--ppid", $"{_container.Id}"])).Out.Split('\n')[0].Trim();
        return _leader.Length > 0 && (await Run("systemctl", "is-active", "--quiet", Target)).ExitCode == 0;
    }

    /// <summary>Why the overlay can't be mounted; null: it is.</summary>
    private static async Task<string?> Mounted(string folder)
    {
        var run = await Tool.Run("/bin/sh", ["-c",
            """
            set -e
            mount -t tmpfs tmpfs "$0"
            mkdir "$0/upper" "$0/work" "$0/root"
            mount -t overlay overlay -o "lowerdir=/,upperdir=$0/upper,workdir=$0/work" "$0/root"
            rm -f "$0/root/etc/systemd/system/multi-user.target.wants/"* "$0/root/etc/systemd/system/timers.target.wants/"*
            """, folder]);
        return run.ExitCode == 0 ? null : run.Err.Trim();
    }

    private static Task<Run> Remove(string folder) =>
        Tool.Run("/bin/sh", ["-c", "umount \"$0/root\" 2>/dev/null; umount \"$0\" 2>/dev/null; rmdir \"$0\"", folder]);
}
