using System.Diagnostics;
using Npgsql;

namespace Stockseat.Tests.Support.Plants;

/// <summary>A separate PostgreSQL server on a Unix socket in a folder of its own, as Debian's package installs it and with its defaults.</summary>
internal sealed class PostgreSql : IAsyncDisposable
{
    private const string User = "postgres";
    private const int UsualPort = 5432;
    private const string Fast = "-INT";
    private const string AtOnce = "-KILL";
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly string[] _options;
    private Process _server;

    private PostgreSql(string folder, string[] options)
    {
        (Folder, _options, _server) = (folder, options, null!);
        var port = options.Select(o => o.Split('=')).FirstOrDefault(o => o[0] == "port") is [_, var stated] ? int.Parse(stated, null) : UsualPort;
        Socket = Path.Combine(folder, $".s.PGSQL.{port}");
        Connection = new NpgsqlConnectionStringBuilder { Host = folder, Port = port, Username = User, Database = User, Pooling = false }.ToString();
    }

    /// <summary>Its folder, with the socket.</summary>
    public string Folder { get; }

    /// <summary>How to connect as its owner.</summary>
    public string Connection { get; }

    /// <summary>Where its socket is.</summary>
    public string Socket { get; }

    /// <summary>Why the server can't be started here; null when it can.</summary>
    public static string? Missing { get; } =
        !OperatingSystem.IsLinux() ? "it is started from Debian's package only"
        : Binaries() is null ? "PostgreSQL is not installed: apt-get install postgresql"
        : Environment.IsPrivilegedProcess && !File.ReadLines("/etc/passwd").Any(l => l.StartsWith(User + ":", StringComparison.Ordinal))
            ? $"PostgreSQL does not run as root, and there is no user {User}"
        : null;

    /// <summary>Makes a server and starts it.</summary>
    /// <param name="under">A folder with a short path, since a socket's name has a limit, that the server's own user can reach.</param>
    /// <param name="token">Ends the start.</param>
    /// <param name="options">Settings that differ from the defaults, such as "fsync=off".</param>
    public static async Task<PostgreSql> Start(string under, CancellationToken token, params string[] options)
    {
        var folder = Path.Combine(under, "pg");
        Directory.CreateDirectory(folder);
        await Give(folder, token);
        await Run(InFolder(folder, "initdb", ["-D", $"{folder}/data", "-U", User, "-A", "trust", "-E", "UTF8", "--locale=C", "--no-sync"]), token);
        var server = new PostgreSql(folder, options);
        await server.Start(token);
        return server;
    }

    /// <summary>Gives a file or a folder to the server's own user.</summary>
    public static Task Give(string path, CancellationToken token) =>
        Environment.IsPrivilegedProcess ? Run(new("chown", [User, path]), token) : Task.CompletedTask;

    /// <summary>Makes another server that follows this one, and starts it.</summary>
    /// <param name="under">A folder, as for <see cref="Start(string, CancellationToken, string[])"/>.</param>
    /// <param name="token">Ends the start.</param>
    public async Task<PostgreSql> Standby(string under, CancellationToken token)
    {
        var folder = Path.Combine(under, "pg");
        Directory.CreateDirectory(folder);
        await Give(folder, token);
        await Run(InFolder(folder, "pg_basebackup", ["-h", Folder, "-U", User, "-D", $"{folder}/data", "-R", "-c", "fast"]), token);
        var server = new PostgreSql(folder, _options);
        await server.Start(token);
        return server;
    }

    /// <summary>Starts it again after it was stopped or killed.</summary>
    public async Task Start(CancellationToken token)
    {
        string[] arguments = ["-D", $"{Folder}/data", "-k", Folder, "-c", "listen_addresses=", .. _options.SelectMany(o => (string[])["-c", o])];
        _server = Process.Start(InFolder(Folder, "postgres", arguments))!;
        try
        {
            _ = _server.StandardOutput.ReadToEndAsync(CancellationToken.None);
            _ = _server.StandardError.ReadToEndAsync(CancellationToken.None);
            await Answers(token);
        }
        catch
        {
            await DisposeAsync();
            throw;
        }
    }

    /// <summary>Stops it as an administrator would: transactions that are running are cut off.</summary>
    public async Task Stop()
    {
        await Signal([_server.Id], Fast);
        await _server.WaitForExitAsync().WaitAsync(Patience);
    }

    /// <summary>Ends the server and all its processes at once, as a power cut would.</summary>
    public async Task Kill()
    {
        int[] all = [_server.Id, .. Children(_server.Id)];
        await Signal(all, AtOnce);
        await _server.WaitForExitAsync().WaitAsync(Patience);
        var begun = Stopwatch.StartNew();
        while (all[1..].Any(id => Directory.Exists($"/proc/{id}")) && begun.Elapsed < Patience)
        {
            await Task.Delay(10);
        }
    }

    public async ValueTask DisposeAsync()
    {
        if (!_server.HasExited)
        {
            try
            {
                await Stop();
            }
            catch (TimeoutException)
            {
                _server.Kill(entireProcessTree: true);
            }
        }

        _server.Dispose();
    }

    private async Task Answers(CancellationToken token)
    {
        var begun = Stopwatch.StartNew();
        while (true)
        {
            try
            {
                await using var connection = new NpgsqlConnection(Connection);
                await connection.OpenAsync(token);
                return;
            }
            catch (NpgsqlException e) when (begun.Elapsed < Patience && !_server.HasExited && e is not PostgresException { SqlState: "28000" })
            {
                await Task.Delay(50, token);
            }
        }
    }

    private static int[] Children(int parent)
    {
        try
        {
            return [.. Directory.EnumerateDirectories($"/proc/{parent}/task")
                .SelectMany(t => File.ReadAllText($"{t}/children").Split(' ', StringSplitOptions.RemoveEmptyEntries)).Select(int.Parse)];
        }
        catch (IOException)
        {
            return [];
        }
    }

    /// <summary>A process that has just ended gets no signal, and that is no failure.</summary>
    private static async Task Signal(int[] processes, string signal)
    {
        var start = new ProcessStartInfo("kill", [signal, .. processes.Select(p => p.ToString(System.Globalization.CultureInfo.InvariantCulture))])
        {
            RedirectStandardError = true,
        };
        using var kill = Process.Start(start)!;
        await kill.WaitForExitAsync();
    }

    private static async Task Run(ProcessStartInfo start, CancellationToken token)
    {
        (start.RedirectStandardOutput, start.RedirectStandardError) = (true, true);
        using var process = Process.Start(start)!;
        var (output, error) = (process.StandardOutput.ReadToEndAsync(token), process.StandardError.ReadToEndAsync(token));
        await process.WaitForExitAsync(token);
        await output;
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException($"{start.FileName} failed: {await error}");
        }
    }

    /// <summary>The server does not run as root.</summary>
    private static ProcessStartInfo InFolder(string folder, string name, string[] arguments)
    {
        var program = Path.Combine(Binaries()!, name);
        return new(
            Environment.IsPrivilegedProcess ? "setpriv" : program,
            Environment.IsPrivilegedProcess ? [$"--reuid={User}", $"--regid={User}", "--clear-groups", program, .. arguments] : arguments)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = folder,
        };
    }

    private static string? Binaries() => Directory.Exists("/usr/lib/postgresql")
        ? Directory.GetDirectories("/usr/lib/postgresql").Select(d => Path.Combine(d, "bin")).Where(d => File.Exists(Path.Combine(d, "postgres")))
            .Order(StringComparer.Ordinal).LastOrDefault()
        : null;
}
