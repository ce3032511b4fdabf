using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text.RegularExpressions;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>The commands in README.md run.</summary>
public abstract partial class ReadmeCommandTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : ReadmeCommandTests(Build.Ordinary);

    public sealed class Native() : ReadmeCommandTests(Build.Native);

    // `dotnet run` becomes the program that is already built; `serve` keeps running beside the commands that follow, as in a terminal of its own,
    // and the others find it on the ports that it has here.
    private const string Preamble = """
        set -e
        stockseat() {
          if [ "$1" = serve ] && [[ " $* " != *" --help "* ]]; then
            coproc SERVICE { exec "$PROGRAM" "$@" 2>serve.log; }
            read -r -t 60 -u "${SERVICE[0]}" ready || { cat serve.log >&2; return 2; }
            echo "$ready"
          else
            case "$1 ${2:-}" in
              "fixture calibrate" | "fixture check" | "fixture draw") ;; # they ask no service
              locate\ * | measured\ * | emptied\ * | confirm\ * | fixture\ * | ledger\ *)
                [[ " $* " = *" --server "* ]] || set -- "$@" --server "http://127.0.0.1:$GRPC_PORT" ;;
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
        (await Tool.Run("bash", [script], cell.Folder, ("PROGRAM", Program.Path), ("GRPC_PORT", grpc))).Exits(0);
    }

    /// <summary>Two ports that are free now; the system does not hand them out again soon.</summary>
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

    [GeneratedRegex(@"^```sh run[^\n]*\n(?<commands>.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Runnable();
}
