using System.Text;
using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;

namespace Stockseat.Reliability.Install;

/// <summary>
/// A temporary root. Staged, the scripts write below it, as any user; installed, they run as if on the system itself, in a mount
/// namespace in which copies take the place of the folders they write to, and a script takes the place of systemctl.
/// </summary>
internal sealed class Scratch : IDisposable
{
    private const string Systemctl = """
        #!/bin/sh
        # Stands in for systemd: keeps what it was told, and the state of the service. A file "next" has states that come one by one, each time somebody asks.
        here=$(dirname -- "$0")/..
        printf '%s\n' "$*" >>"$here/told"
        case "$1" in
        show)
            if [ -s "$here/next" ]; then head -n 1 "$here/next" >"$here/state"; sed -i 1d "$here/next"; fi
            cat "$here/state" 2>/dev/null || echo inactive
            ;;
        stop) echo inactive >"$here/state" ;;
        start | restart)
            echo failed >"$here/state"
            [ ! -e "$here/broken" ] && /opt/stockseat/stockseat && echo active >"$here/state"
            ;;
        esac
        """;

    private const string Enter = """
        set -eu
        mount --make-rprivate /
        mount --bind "$SCRATCH/etc" /etc
        mount --bind "$SCRATCH/opt" /opt
        mount --bind "$SCRATCH/var/lib" /var/lib
        PATH=$SCRATCH/bin:/usr/sbin:/usr/bin:/sbin:/bin
        export PATH
        exec "$@"
        """;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("stockseat-install-");

    public static string Scripts { get; } = Path.Combine(Repository.Root, "install", "linux");

    public static string Config { get; } = Path.Combine(Repository.Root, "config");

    public string Root => _folder.FullName;

    public string Below(string path) => Path.Combine(Root, path);

    /// <summary>The commands that the stand-in for systemctl got since the last time, without the questions for the service's state.</summary>
    public IReadOnlyList<string> Told()
    {
        var file = Below("told");
        var told = File.Exists(file) ? File.ReadAllLines(file) : [];
        File.Delete(file);
        return [.. told.Where(t => !t.StartsWith("show ", StringComparison.Ordinal))];
    }

    /// <summary>A published folder; its program prints which one it is.</summary>
    public string Publish(string name, bool ordinary = false)
    {
        var folder = Directory.CreateDirectory(Below($"published-{name}")).FullName;
        Program(Path.Combine(folder, "stockseat"), $"#!/bin/sh\necho {name}\n");
        File.WriteAllText(Path.Combine(folder, "libe_sqlite3.so"), name);
        if (ordinary)
        {
            File.WriteAllText(Path.Combine(folder, "stockseat.dll"), name);
        }

        return folder;
    }

    /// <summary>Which program is in use.</summary>
    public string InForce() => File.ReadAllText(Below("opt/stockseat/libe_sqlite3.so"));

    /// <summary>What is in /opt, with what links point to.</summary>
    public IReadOnlyList<string> Programs() =>
    [
        .. Directory.EnumerateFileSystemEntries(Below("opt")).Select(e => $"{Path.GetFileName(e)} {new FileInfo(e).LinkTarget}")
            .Order(StringComparer.Ordinal),
    ];

    /// <summary>Runs a script that writes below this root.</summary>
    public Task<Run> Stage(string script, params string[] arguments) =>
        Tool.Run("/bin/sh", [Path.Combine(Scripts, script), .. arguments], null, ("DESTDIR", Root));

    /// <summary>Makes the copies that the namespace needs; without permission to do so the test is skipped.</summary>
    public async Task Prepare()
    {
        Needs.Root();
        Needs.Programs("unshare", "mount", "useradd", "userdel");
        await Needs.Run("cp", "-a", "/etc", Below("etc"));
        Directory.CreateDirectory(Below("opt"));
        Directory.CreateDirectory(Below("var/lib"));
        Directory.CreateDirectory(Below("bin"));
        Program(Below("bin/systemctl"), Systemctl.ReplaceLineEndings("\n") + "\n");
        var tried = await Inside("true");
        Assert.SkipUnless(tried.ExitCode == 0, $"no mount namespace can be made here: {tried.Err.Trim()}");
    }

    /// <summary>Runs a script as if on the system itself.</summary>
    public Task<Run> Install(string script, params string[] arguments) => Inside(["/bin/sh", Path.Combine(Scripts, script), .. arguments]);

    public Task<Run> Inside(params string[] command) =>
        Tool.Run("unshare", ["--mount", "/bin/sh", "-c", Enter.ReplaceLineEndings("\n"), "enter", .. command], null, ("SCRATCH", Root));

    public void Dispose() => _folder.Delete(recursive: true);

    private static void Program(string path, string text)
    {
        File.WriteAllText(path, text, new UTF8Encoding(false));
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(path, (UnixFileMode)0b111_101_101);
        }
    }
}
