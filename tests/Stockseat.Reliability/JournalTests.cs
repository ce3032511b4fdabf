using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;

namespace Stockseat.Reliability;

/// <summary>Each line that the journal gets has the priority of its level; a stderr that is something else gets plain lines.</summary>
public class JournalTests
{
    /// <summary>
    /// Runs a program with a socket as its stderr, as systemd does, and prints what came out of it. The first argument says which stream JOURNAL_STREAM names.
    /// </summary>
    private const string AsTheJournal = """
        import os, socket, subprocess, sys
        ours, theirs = socket.socketpair()
        own = os.fstat(theirs.fileno())
        names = {"its own": f"{own.st_dev}:{own.st_ino}", "another": f"{own.st_dev}:1"}
        program = subprocess.Popen(sys.argv[2:], stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=theirs,
                                   env={**os.environ, "JOURNAL_STREAM": names[sys.argv[1]]})
        theirs.close()
        while True:
            read = ours.recv(65536)
            if b"Serving" in read:
                program.terminate()
            if not read:
                break
            sys.stdout.buffer.write(read)
        sys.exit(program.wait())
        """;

    [Fact]
    public async Task Journal_GetsPriorities()
    {
        using var cell = new Cell();
        cell.Write("config/fixtures/broken-1/r0001.json", "{");

        var lines = Lines((await Serve(cell, "its own")).Exits(0));

        Assert.Contains(lines, l => l.StartsWith("<6>{\"@t\"", StringComparison.Ordinal) && l.Contains("Serving", StringComparison.Ordinal));
        Assert.Contains(lines, l => l.StartsWith("<4>{", StringComparison.Ordinal) && l.Contains("broken-1", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Journal_OfAServiceThatCantRun_GetsItAsCritical()
    {
        using var cell = new Cell();
        File.WriteAllText(cell.Data, "no folder");

        Assert.StartsWith("<2>{", Assert.Single(Lines((await Serve(cell, "its own")).Exits(2))), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Journal_GetsEachFaultOfTheConfigurationAsAnError()
    {
        using var cell = new Cell();
        cell.Write("config/stockseat.json", "{ \"Colour\": 1, \"Sound\": 2 }");

        var lines = Lines((await Serve(cell, "its own")).Exits(64));

        Assert.Equal(2, lines.Length);
        Assert.All(lines, l => Assert.StartsWith("<3>", l, StringComparison.Ordinal));
    }

    [Fact]
    public async Task AnotherStream_GetsPlainLines()
    {
        using var cell = new Cell();

        Assert.All(Lines((await Serve(cell, "another")).Exits(0)), l => Assert.StartsWith("{", l, StringComparison.Ordinal));
    }

    private static string[] Lines(Run run) => run.Out.Split('\n', StringSplitOptions.RemoveEmptyEntries);

    private static Task<Run> Serve(Cell cell, string stream)
    {
        Needs.Programs("python3");
        return Tool.Run("python3", ["-c", AsTheJournal, stream, Repository.Program, "serve", "--config", cell.Config, "--data", cell.Data], null,
            ("STOCKSEAT_LISTEN_GRPC", "127.0.0.1:0"), ("STOCKSEAT_LISTEN_LINE", "127.0.0.1:0"));
    }
}
