using System.Diagnostics;
using Npgsql;

namespace Stockseat.Load.Servers;

/// <summary>A separate PostgreSQL server on a Unix socket in the run's folder, as Debian's package installs it and with its defaults.</summary>
internal sealed class PostgreSql : IAsyncDisposable
{
    private const string User = "postgres";
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly Process _server;

    private PostgreSql(Process server, string folder)
    {
        _server = server;
        Connection = new NpgsqlConnectionStringBuilder { Host = folder, Username = User, Database = User, Pooling = false }.ToString();
    }

    /// <summary>How to connect.</summary>
    public string Connection { get; }

    /// <summary>Why the server can't be started here; null when it can.</summary>
    public static string? Missing { get; } =
        !OperatingSystem.IsLinux() ? "it is started from Debian's package only"
        : Binaries() is null ? "PostgreSQL is not installed: apt-get install postgresql"
        : Environment.IsPrivilegedProcess && !File.ReadLines("/etc/passwd").Any(l => l.StartsWith(User + ":", StringComparison.Ordinal))
            ? $"PostgreSQL does not run as root, and there is no user {User}"
        : null;

    public static async Task<PostgreSql> Start(string under, CancellationToken token)
    {
        // A path short enough for a socket's name, and that the server's own user can reach.
        var folder = Path.Combine(under, "pg");
        Directory.CreateDirectory(folder);
        if (Environment.IsPrivilegedProcess)
        {
            await Run("chown", [User, folder], token);
        }

        await Run(InFolder("initdb", ["-D", $"{folder}/data", "-U", User, "-A", "trust", "-E", "UTF8", "--locale=C"]), token);
        var server = new PostgreSql(Process.Start(InFolder("postgres", ["-D", $"{folder}/data", "-k", folder, "-c", "listen_addresses="]))!, folder);
        try
        {
            _ = server._server.StandardOutput.ReadToEndAsync(CancellationToken.None);
            _ = server._server.StandardError.ReadToEndAsync(CancellationToken.None);
            await server.Answers(token);
            return server;
        }
        catch
        {
            await server.DisposeAsync();
            throw;
        }

        ProcessStartInfo InFolder(string program, string[] arguments) => As(Path.Combine(Binaries()!, program), arguments, folder);
    }

    public async ValueTask DisposeAsync()
    {
        if (!_server.HasExited)
        {
            _ = Native.Signal(_server.Id, Native.SigInt); // a fast stop
            try
            {
                await _server.WaitForExitAsync().WaitAsync(Patience);
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

    private static async Task Run(string program, string[] arguments, CancellationToken token) => await Run(new ProcessStartInfo(program, arguments), token);

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
    private static ProcessStartInfo As(string program, string[] arguments, string folder) => new(
        Environment.IsPrivilegedProcess ? "setpriv" : program,
        Environment.IsPrivilegedProcess ? [$"--reuid={User}", $"--regid={User}", "--clear-groups", program, .. arguments] : arguments)
    {
        RedirectStandardOutput = true,
        RedirectStandardError = true,
        WorkingDirectory = folder,
    };

    private static string? Binaries() => Directory.Exists("/usr/lib/postgresql")
        ? Directory.GetDirectories("/usr/lib/postgresql").Select(d => Path.Combine(d, "bin")).Where(d => File.Exists(Path.Combine(d, "postgres")))
            .Order(StringComparer.Ordinal).LastOrDefault()
        : null;
}
