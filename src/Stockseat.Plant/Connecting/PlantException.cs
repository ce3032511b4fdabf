using System.Net.Sockets;
using Npgsql;

namespace Stockseat.Plant.Connecting;

/// <summary>The plant store could not be reached, or did not do what was asked. The message names the store, never the password.</summary>
public sealed class PlantException(string message, Exception? cause = null) : Exception(message, cause)
{
    private const string NoSchema = "3F000";
    private const string NoTable = "42P01";
    private const string NoRight = "42501";

    /// <summary>Runs what talks to the store, and puts what went wrong into one sentence.</summary>
    internal static async Task<T> Around<T>(PlantAddress address, Func<Task<T>> run)
    {
        try
        {
            return await run();
        }
        catch (Exception e) when (e is NpgsqlException or TimeoutException or IOException or SocketException or InvalidOperationException
            or NotSupportedException or ArgumentException)
        {
            throw Of(address, e);
        }
    }

    /// <summary>What went wrong, in one sentence.</summary>
    internal static PlantException Of(PlantAddress address, Exception e) => e as PlantException ?? new($"the plant store {address.Name}: {Said(e)}", e);

    private static string Said(Exception e) => e switch
    {
        PostgresException { SqlState: NoSchema or NoTable } p => $"{p.MessageText}; make its tables with stockseat plant prepare",
        PostgresException { SqlState: NoRight } p => $"{p.MessageText}; grant this login stockseat_writer, or stockseat_reader for reading",
        PostgresException p => $"{p.MessageText.TrimEnd('.')} (SQLSTATE {p.SqlState})",
        { InnerException: { } inner } => $"{e.Message.TrimEnd('.')}: {inner.Message.TrimEnd('.')}",
        _ => e.Message.TrimEnd('.'),
    };
}
