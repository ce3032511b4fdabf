using System.Data.Common;
using System.Net;
using System.Text;
using Npgsql;
using Stockseat.Fixtures.Files;

namespace Stockseat.Plant.Connecting;

/// <summary>
/// Where the plant store is. The password is never part of it: it is read from its file at each connect, so a changed one is used without a restart.
/// </summary>
public sealed class PlantAddress
{
    /// <summary>How long one attempt to connect may take, in seconds.</summary>
    private const int ConnectSeconds = 10;

    /// <summary>How long the server may take for one command, in seconds.</summary>
    private const int CommandSeconds = 60;

    private const int LongestPassword = 4096;

    /// <summary>What a connection may state. Everything else could print secrets, weaken the check of the server, or change how entries are sent.</summary>
    private static readonly string[] Allowed =
    [
        "Host", "Port", "Database", "Username", "SSL Mode", "Root Certificate", "SSL Certificate", "SSL Key", "Application Name",
    ];

    private readonly NpgsqlConnectionStringBuilder _stated;
    private readonly string? _passwordFile;

    private PlantAddress(NpgsqlConnectionStringBuilder stated, string? passwordFile) => (_stated, _passwordFile) = (stated, passwordFile);

    /// <summary>The server and the database, for messages: without user and password.</summary>
    public string Name => $"{_stated.Host}/{_stated.Database ?? _stated.Username}";

    /// <summary>Reads a connection, in the form "Host=…;Database=…;Username=…".</summary>
    /// <param name="connection">The connection; several hosts are separated by commas.</param>
    /// <param name="passwordFile">The file with the password; null: the server asks for none.</param>
    /// <param name="fault">What is wrong with it; null: nothing.</param>
    public static PlantAddress? Read(string connection, string? passwordFile, out string? fault)
    {
        var stated = new NpgsqlConnectionStringBuilder();
        try
        {
            stated.ConnectionString = connection;
        }
        catch (Exception e) when (e is ArgumentException or FormatException or OverflowException or InvalidCastException)
        {
            // The message of the exception can quote what was stated, and that may be a password.
            fault = "can't be read; keys and values such as \"Host=plant-db;Database=plant;Username=cell_4\" were expected, each of "
                + string.Join(", ", Allowed);
            return null;
        }

        fault = Fault(stated);
        return fault is null ? new(stated, passwordFile) : null;
    }

    /// <summary>How to connect now, with the password.</summary>
    /// <exception cref="IOException">The file with the password can't be read.</exception>
    public NpgsqlConnectionStringBuilder Now() => new(_stated.ConnectionString)
    {
        Password = _passwordFile is null ? null : Password(_passwordFile),
        SslMode = States(_stated, "SSL Mode") ? _stated.SslMode : IsHere(_stated) ? SslMode.Disable : SslMode.VerifyFull,
        ApplicationName = _stated.ApplicationName ?? "stockseat",
        Timeout = ConnectSeconds,
        CommandTimeout = CommandSeconds,
        TcpKeepAlive = true,
        KeepAlive = 0,
        Enlist = false,
        IncludeErrorDetail = false, // It would print rows.
        CancellationTimeout = -1, // A step that took too long ends the connection: nothing is waited for.
        MaxPoolSize = 8,
    };

    /// <summary>Whether there are several hosts, of which one takes writes.</summary>
    internal bool HasSeveralHosts => _stated.Host!.Contains(',', StringComparison.Ordinal);

    private static string? Fault(NpgsqlConnectionStringBuilder stated)
    {
        if (States(stated, "Password") || States(stated, "Passfile"))
        {
            return "states a password; write it into a file that only the service's user may read, and name that as the password file";
        }

        if (Keys(stated).FirstOrDefault(k => !Allowed.Contains(k, StringComparer.OrdinalIgnoreCase)) is { } foreign)
        {
            return $"states {foreign}, which is not for this connection; it may have {string.Join(", ", Allowed)}";
        }

        if (stated.Host is not { Length: > 0 })
        {
            return "names no Host; the host of the PostgreSQL server was expected, or several with commas between them";
        }

        if (stated.Username is not { Length: > 0 })
        {
            return "names no Username; the login that the plant's database has for this was expected";
        }

        return States(stated, "SSL Mode") && stated.SslMode is not (SslMode.VerifyFull or SslMode.VerifyCA) && !IsHere(stated)
            ? $"states SSL Mode={stated.SslMode}, by which anybody on the network could pose as the server; "
                + "leave it out (VerifyFull), and name the authority of the server's certificate as Root Certificate"
            : null;
    }

    /// <summary>The keys that were stated: the builder itself has all that there are.</summary>
    private static IEnumerable<string> Keys(NpgsqlConnectionStringBuilder stated) =>
        new DbConnectionStringBuilder { ConnectionString = stated.ConnectionString }.Keys.Cast<string>();

    private static bool States(NpgsqlConnectionStringBuilder stated, string key) => Keys(stated).Contains(key, StringComparer.OrdinalIgnoreCase);

    /// <summary>Whether all hosts are this machine: a socket's folder, or a loopback address.</summary>
    private static bool IsHere(NpgsqlConnectionStringBuilder stated) => stated.Host!.Split(',').All(h =>
        h.StartsWith('/') || Host(h) is var host && (host == "localhost" || (IPAddress.TryParse(host, out var ip) && IPAddress.IsLoopback(ip))));

    /// <summary>A host without the port that may follow it.</summary>
    private static string Host(string text) => text.StartsWith('[') ? text[1..].Split(']')[0] : text.Count(c => c == ':') == 1 ? text.Split(':')[0] : text;

    private static string Password(string path)
    {
        try
        {
            var text = Encoding.UTF8.GetString(RegularFile.Read(path, LongestPassword)).TrimEnd('\r', '\n');
            return text.Length > 0 ? text : throw new IOException($"the password file {path} is empty; write the password into it");
        }
        catch (UnauthorizedAccessException e)
        {
            throw new IOException($"the password file {path} may not be read by this user; give it the right to read it", e);
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new IOException($"the password file {path} does not exist; write it, or correct the path", e);
        }
    }
}
