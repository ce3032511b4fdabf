using Stockseat.Service.Configuration;
using Stockseat.Service.Hosting;

namespace Stockseat.Service.Examining;

/// <summary>Whether all connections of the configuration fit into the files that a process may have open.</summary>
internal static class OpenFilesCheck
{
    private const string About = "open files";

    public static IEnumerable<Finding> Look(Examined examined)
    {
        if (OpenFiles.Limit() is not { } limit)
        {
            return [];
        }

        var stated = examined.Settings.Limits.Connections;
        try
        {
            var budget = ConnectionBudget.Of(stated, examined.Settings.ReadingPorts.Count, OpenFiles.Now(), limit);
            return
            [
                budget.Admitted < stated
                    ? Finding.Advice(About, $"a process started here may have {limit} files open, enough for {budget.Admitted} of the {stated} connections of "
                        + $"Limits:Connections; raise it to {budget.Needed} (the unit does: LimitNOFILE), or state fewer connections")
                    : Finding.Good(About, $"a process started here may have {limit} open, enough for {stated} connections"),
            ];
        }
        catch (ConfigurationException e)
        {
            return [Finding.Fault(About, e.Message)];
        }
    }
}
