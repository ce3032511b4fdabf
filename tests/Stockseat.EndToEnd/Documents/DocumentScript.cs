using System.Globalization;
using System.Text;

namespace Stockseat.EndToEnd.Documents;

/// <summary>The commands and sessions of a document as one script for bash, each block with a file for what it prints.</summary>
/// <remarks>
/// <c>dotnet run</c> and <c>stockseat</c> become the program under test. <c>serve</c> runs on beside the commands that follow, as in a terminal of its own;
/// another <c>serve</c> stops the one before. The other commands find the service on the ports that it has here.
/// </remarks>
internal static class DocumentScript
{
    private const string Preamble = """
        set -e -o pipefail
        export TZ=UTC LC_ALL=C.UTF-8
        stop() { [ -z "${SERVICE_PID:-}" ] || { kill "$SERVICE_PID"; wait "$SERVICE_PID" 2>/dev/null || true; SERVICE_PID=; }; }
        serve() {
          stop
          coproc SERVICE { exec "$PROGRAM" serve "$@" 2>serve.log; }
          read -r -t 60 -u "${SERVICE[0]}" ready || { cat serve.log >&2; return 2; }
          echo "$ready"
        }
        stockseat() {
          if [ "$1" = serve ] && [[ " $* " != *" --help "* ]]; then
            shift; serve "$@"
          else
            case "$1 ${2:-}" in
              "fixture calibrate" | "fixture check" | "fixture draw") ;; # they ask no service
              locate\ * | measured\ * | emptied\ * | confirm\ * | lot\ * | fixture\ * | ledger\ *)
                [[ " $* " = *" --server "* || " $* " = *" --data "* || " $* " = *" --help "* ]] || set -- "$@" --server "http://127.0.0.1:$GRPC_PORT" ;;
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
        session() {
          exec 9<>"/dev/tcp/127.0.0.1/$LINE_PORT"
          local line reply
          while IFS= read -r line; do
            echo "-> $line"
            printf '%s\n' "$line" >&9
            IFS= read -r -t 60 reply <&9
            echo "<- $reply"
          done
          exec 9>&-
        }
        trap stop EXIT

        """;

    /// <summary>The script; block N writes <c>block.N</c>, and the number of the block under way stands in <c>under-way</c>.</summary>
    public static string Of(Document document, string folder)
    {
        var script = new StringBuilder(Preamble).Append(CultureInfo.InvariantCulture, $"cd '{folder}'\n");
        if (!document.Blocks.Any(b => b.Info == Block.Commands && b.Lines.Any(l => l.Split(' ').Contains("serve"))))
        {
            script.Append("serve --config config/stockseat.json >/dev/null\n");
        }

        foreach (var (block, index) in document.Blocks.Select((b, i) => (b, i)).Where(b => b.b.Runs))
        {
            var body = block.Info == Block.Commands
                ? string.Join('\n', block.Lines)
                : $"session <<'END OF SESSION'\n{string.Join('\n', Sent(block).Select(l => l[3..]))}\nEND OF SESSION";
            script.Append(CultureInfo.InvariantCulture, $"echo {index} >'{folder}/under-way'\n{{\n{body}\n}} >'{folder}/block.{index}' 2>&1\n");
        }

        return script.ToString();
    }

    public static IEnumerable<string> Sent(Block session) => session.Lines.Where(l => l.StartsWith("-> ", StringComparison.Ordinal));
}
