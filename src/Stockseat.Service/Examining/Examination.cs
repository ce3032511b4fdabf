using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Store;
using Stockseat.Service.Configuration;

namespace Stockseat.Service.Examining;

/// <summary>
/// Looks at everything that a service needs around it, as the user that runs this, and changes nothing. It works beside a running service and without one.
/// </summary>
public static class Examination
{
    private static readonly (string About, Func<Examined, IEnumerable<Finding>> Look)[] Checks =
    [
        ("rights", RightsCheck.Look),
        ("clients", CallerCheck.Look),
        ("certificates", CertificateCheck.Look),
        ("fixtures", FixtureCheck.Look),
        ("data folder", DataFolderCheck.Look),
        ("ledger", LedgerCheck.Look),
        ("sealing key", SealKeyCheck.Look),
        ("ports", PortCheck.Look),
        ("open files", OpenFilesCheck.Look),
    ];

    /// <summary>Everything that was found, in a fixed order.</summary>
    /// <param name="settings">The merged settings.</param>
    /// <param name="file">The configuration's file; null: there is none.</param>
    /// <param name="time">The clock.</param>
    public static IEnumerable<Finding> Of(Settings settings, string? file, TimeProvider time)
    {
        ArgumentNullException.ThrowIfNull(settings);
        var examined = new Examined(settings, file, time, FolderLock.IsTaken(settings.Ledger.Data));
        return Checks.SelectMany(c => Look(c.About, c.Look, examined));
    }

    private static List<Finding> Look(string about, Func<Examined, IEnumerable<Finding>> look, Examined examined)
    {
        try
        {
            return [.. look(examined)];
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or InvalidDataException or NotSupportedException or SqliteException
            or ArgumentException)
        {
            return [new(about, Outcome.Unchecked, $"could not be checked: {e.Message}")];
        }
    }
}
