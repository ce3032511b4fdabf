using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd.Documents;

/// <summary>What the documents say to type runs, and prints what they show.</summary>
public abstract class DocumentCommandTests(Build build) : OnBothBuilds(build)
{
    private const string Writing = "STOCKSEAT_WRITE_PAGES";

    public sealed class Ordinary() : DocumentCommandTests(Build.Ordinary);

    public sealed class Native() : DocumentCommandTests(Build.Native);

    public static TheoryData<string> Running => [.. Document.All.Where(p => Document.Open(p).Blocks.Any(b => b.Runs))];

    [Theory]
    [MemberData(nameof(Running))]
    public async Task EveryBlock_RunsAndPrintsWhatIsShown(string path)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "these commands are for a POSIX shell");
        var document = Document.Open(path);
        using var cell = Linked();
        var (grpc, line, page) = FreePorts();
        var script = cell.Write("document.sh", DocumentScript.Of(document, cell.Folder));
        var run = await Tool.Run(
            "bash", [script], cell.Folder, ("PROGRAM", Program.Path), ("GRPC_PORT", grpc), ("LINE_PORT", line),
            ("STOCKSEAT_LISTEN_GRPC", $"127.0.0.1:{grpc}"), ("STOCKSEAT_LISTEN_LINE", $"127.0.0.1:{line}"), ("STOCKSEAT_LISTEN_PAGE", $"127.0.0.1:{page}"));
        Assert.True(run.ExitCode == 0, Failure(document, cell, run));
        string Here(string said) => said.Replace($":{grpc}", ":28610", StringComparison.Ordinal).Replace($":{line}", ":28611", StringComparison.Ordinal)
            .Replace($":{page}", ":28612", StringComparison.Ordinal).Replace(cell.Folder, "/home/you/stockseat", StringComparison.Ordinal);
        var differences = Differences(document, i => Printed.Lines(Here(File.ReadAllText(Path.Combine(cell.Folder, $"block.{i}"))))).ToList();
        if (Environment.GetEnvironmentVariable(Writing) is not null)
        {
            Write(document, differences);
        }

        Assert.True(differences.Count == 0, string.Join("\n\n", differences.Select(d => $"{path}:{d.Shown.First + 1}: {d.Said}")));
    }

    /// <summary>Each block that shows something else than was printed.</summary>
    private static IEnumerable<(Block Shown, string Said, IReadOnlyList<string> Printed)> Differences(Document document, Func<int,
        IReadOnlyList<string>> printed)
    {
        for (var i = 0; i < document.Blocks.Count; i++)
        {
            var block = document.Blocks[i];
            var shown = block.Info == Block.Session ? block
                : block.Info == Block.Commands && i + 1 < document.Blocks.Count && document.Blocks[i + 1].Info == Block.Output ? document.Blocks[i + 1] : null;
            if (shown is not null && Printed.Difference(shown.Lines, printed(i)) is { } said)
            {
                yield return (shown, said, printed(i));
            }
        }
    }

    private static void Write(Document document, IEnumerable<(Block Shown, string Said, IReadOnlyList<string> Printed)> differences)
    {
        var lines = document.Lines.ToList();
        foreach (var (shown, _, printed) in differences.Reverse())
        {
            lines.RemoveRange(shown.First, shown.Lines.Count);
            lines.InsertRange(shown.First, printed);
        }

        File.WriteAllLines(document.FullPath, lines);
    }

    private static string Failure(Document document, Cell cell, Run run)
    {
        var index = int.Parse(File.ReadAllText(Path.Combine(cell.Folder, "under-way")), CultureInfo.InvariantCulture);
        return $"the block at {document.Path}:{document.Blocks[index].First + 1} ended with exit code {run.ExitCode}\n"
            + $"{File.ReadAllText(Path.Combine(cell.Folder, $"block.{index}"))}\n{run.Err}";
    }

    /// <summary>A copy of the demo's configuration with all else of the repository beside it, as a clone has it.</summary>
    private static Cell Linked()
    {
        var cell = new Cell();
        foreach (var entry in Directory.EnumerateFileSystemEntries(Repository.Root).Where(e => Path.GetFileName(e) is not ("config" or "data" or ".git")))
        {
            File.CreateSymbolicLink(Path.Combine(cell.Folder, Path.GetFileName(entry)), entry);
        }

        return cell;
    }

    /// <summary>Two ports that nobody has now; the system does not hand them out again soon.</summary>
    private static (string Grpc, string Line, string Page) FreePorts()
    {
        using var one = new Socket(SocketType.Stream, ProtocolType.Tcp);
        using var other = new Socket(SocketType.Stream, ProtocolType.Tcp);
        using var third = new Socket(SocketType.Stream, ProtocolType.Tcp);
        foreach (var socket in (Socket[])[one, other, third])
        {
            socket.Bind(new IPEndPoint(IPAddress.Loopback, 0));
        }

        return (Port(one), Port(other), Port(third));
    }

    private static string Port(Socket socket) => ((IPEndPoint)socket.LocalEndPoint!).Port.ToString(CultureInfo.InvariantCulture);
}
