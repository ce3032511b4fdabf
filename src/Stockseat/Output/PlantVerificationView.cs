using System.Globalization;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Plant.Evidence;

namespace Stockseat.Cli.Output;

/// <summary>The verdicts on the ledgers of the plant store.</summary>
internal static class PlantVerificationView
{
    /// <summary>Prints them; 0 all are intact, 1 one is not, 2 one could not be checked.</summary>
    public static int Print(IReadOnlyList<StoredVerification> all, bool json)
    {
        foreach (var (ledger, found) in all)
        {
            if (json)
            {
                Json.Line(new StoredVerificationShape(ledger.Ledger.ToString(), ledger.Cell, ledger.Differs?.Serial, VerificationView.Of(found)));
                continue;
            }

            foreach (var fault in found.Faults)
            {
                var place = fault.Serial == 0 ? "the rows" : $"entry {Text(fault.Serial)}";
                Plain.Line($"fault in ledger {ledger.Ledger} at {place}: {fault.Kind}: {fault.Text}");
            }

            if (found.Unreadable is { } unreadable)
            {
                Plain.Line($"ledger {ledger.Ledger} could not be checked: {unreadable}");
            }

            if (ledger.Differs is var (serial, _))
            {
                Plain.Line($"ledger {ledger.Ledger} differs from its cell's from entry {Text(serial)} on; see stockseat plant status");
            }
        }

        var code = all.Any(v => v.Found.ExitCode == ExitCodes.Refused || v.Ledger.Differs is not null) ? ExitCodes.Refused
            : all.Any(v => v.Found.ExitCode == ExitCodes.Failed) ? ExitCodes.Failed : ExitCodes.Done;
        if (!json)
        {
            var (intact, entries) = (all.Count(v => v.Found.Whole), all.Sum(v => v.Found.Entries));
            Plain.Line($"{Text(intact)} of {Text(all.Count)} {(all.Count == 1 ? "ledger" : "ledgers")} intact, {Text(entries)} entries read");
        }

        return code;
    }

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);
}
