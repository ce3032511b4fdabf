using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text.RegularExpressions;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>What the pages say can be done and found.</summary>
public partial class DocumentTests
{
    private static readonly string[] Pages = ["README.md", "DEVELOPERS.md", "proto/README.md", "proto/reasons.md"];

    // `dotnet run` becomes the program that is built already; `serve` runs on beside the commands that follow, as in a terminal of its own,
    // and the others find it on the ports that it has here.
    private const string Preamble = """
        set -e
        stockseat() {
          if [ "$1" = serve ] && [[ " $* " != *" --help "* ]]; then
            coproc SERVICE { exec "$PROGRAM" "$@" 2>serve.log; }
            read -r -t 60 -u "${SERVICE[0]}" ready || { cat serve.log >&2; return 2; }
            echo "$ready"
          else
            case "$1" in
              locate | measured | emptied | confirm | fixture | ledger) [[ " $* " = *" --server "* ]] || set -- "$@" --server "http://127.0.0.1:$GRPC_PORT" ;;
            esac
            "$PROGRAM" "$@"
          fi
        }
        dotnet() {
          if [ "$1" = run ]; then
            while [ $# -gt 0 ] && [ "$1" != -- ]; do shift; done
            shift || true
            stockseat "$@"
          else
            command dotnet "$@"
          fi
        }
        trap '[ -z "${SERVICE_PID:-}" ] || kill "$SERVICE_PID"; wait' EXIT

        """;

    [Fact]
    public void Readme_IsThere() => Assert.True(File.Exists(Path.Combine(Repository.Root, "README.md")), "the repository has no README.md");

    [Fact]
    public void EveryPath_ThatAPageNames_IsThere()
    {
        var missing = from page in Pages
                      where File.Exists(Path.Combine(Repository.Root, page))
                      from path in Paths(page, File.ReadAllText(Path.Combine(Repository.Root, page)))
                      where !Path.Exists(Path.Combine(Repository.Root, path.Path))
                      select $"{page} names {path.Text}";

        Assert.Empty(missing);
    }

    [Fact]
    public void Paths_AreFoundInLinksAndCode() => Assert.Equal(
        ["proto/README.md", "LICENSE", "config/stockseat.json", "tests/run"],
        Paths("proto/README.md", "see [lines](README.md#abnf), [terms](../LICENSE), [site](https://example.org/a), [below](#here), `config/stockseat.json`, `tests/run`, `bin/none`, `src/<name>/x`")
            .Select(p => Path.GetRelativePath(Repository.Root, Path.Combine(Repository.Root, p.Path))));

    [Fact]
    public async Task EveryRunnableCommand_OfTheReadme_Runs()
    {
        var text = File.ReadAllText(Path.Combine(Repository.Root, "README.md"));
        var blocks = Runnable().Matches(text).Select(m => m.Groups["commands"].Value).ToList();
        Assert.True(blocks.Count > 0, "README.md has no block that begins with ```sh run");
        Assert.SkipWhen(OperatingSystem.IsWindows(), "these commands are for a POSIX shell");
        using var cell = new Cell();
        foreach (var entry in Directory.EnumerateFileSystemEntries(Repository.Root).Where(e => Path.GetFileName(e) is not ("config" or "data" or ".git")))
        {
            File.CreateSymbolicLink(Path.Combine(cell.Folder, Path.GetFileName(entry)), entry);
        }

        var (grpc, line) = FreePorts();
        string Here(string said) => said.Replace("28610", grpc, StringComparison.Ordinal).Replace("28611", line, StringComparison.Ordinal);
        cell.Write("config/stockseat.json", Here(File.ReadAllText(cell.Config)));
        var script = cell.Write("readme.sh", Preamble + Here(string.Join('\n', blocks.Select(b => $"cd '{cell.Folder}'\n{b}"))));
        (await Tool.Run("bash", [script], cell.Folder, ("PROGRAM", Repository.Program), ("GRPC_PORT", grpc))).Exits(0);
    }

    /// <summary>The paths that a page names, from the repository's root.</summary>
    private static IEnumerable<(string Text, string Path)> Paths(string page, string text)
    {
        var folder = Path.GetDirectoryName(page)!;
        return Link().Matches(text).Select(m => m.Groups["path"].Value)
            .Where(p => !p.Contains(':', StringComparison.Ordinal) && !p.StartsWith('#'))
            .Select(p => (p, Path.Combine(folder, p.Split('#')[0])))
            .Concat(Code().Matches(text).Select(m => m.Groups["path"].Value).Select(p => (p, p)));
    }

    /// <summary>Two ports that nobody has now; the system does not hand them out again soon.</summary>
    private static (string Grpc, string Line) FreePorts()
    {
        using var one = new Socket(SocketType.Stream, ProtocolType.Tcp);
        using var other = new Socket(SocketType.Stream, ProtocolType.Tcp);
        foreach (var socket in (Socket[])[one, other])
        {
            socket.Bind(new IPEndPoint(IPAddress.Loopback, 0));
        }

        return (Port(one), Port(other));
    }

    private static string Port(Socket socket) => ((IPEndPoint)socket.LocalEndPoint!).Port.ToString(CultureInfo.InvariantCulture);

    [GeneratedRegex(@"\]\((?<path>[^)\s]+)\)")]
    private static partial Regex Link();

    [GeneratedRegex(@"`(?<path>(src|proto|tests|config|install)/[A-Za-z0-9._/-]*)`")]
    private static partial Regex Code();

    [GeneratedRegex(@"^```sh run[^\n]*\n(?<commands>.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Runnable();
}
