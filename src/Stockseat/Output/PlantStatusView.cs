using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Audit.Showing;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Plant.Heads;

namespace Stockseat.Cli.Output;

/// <summary>The ledgers of the plant store, one row each.</summary>
internal static class PlantStatusView
{
    public static void Print(IReadOnlyList<StoredLedger> ledgers, bool json, ZonedTimes times)
    {
        if (json)
        {
            foreach (var l in ledgers)
            {
                Json.Line(new StoredLedgerShape(
                    l.Ledger.ToString(), l.Cell, l.First, l.Last, EntryTime.Text(l.At), EntryTime.Text(l.Stored), l.Closed, l.Differs?.Serial,
                    l.Differs is var (_, since) ? EntryTime.Text(since) : null, l.InForce?.Fixture, l.InForce?.Revision, l.Verified?.Intact, l.Verified?.To,
                    l.Verified is var (_, _, at) ? EntryTime.Text(at) : null));
            }

            return;
        }

        Plain.Table(
            ["cell", "ledger", "first", "newest", $"written ({times.Name})", $"stored ({times.Name})", "state", "verified"],
            ledgers.Select(l => (IReadOnlyList<string>)
            [
                l.Cell ?? "", l.Ledger.ToString(), Text(l.First), Text(l.Last), times.Second(l.At), times.Second(l.Stored),
                l.Differs is not null ? "differs" : l.Closed ? "closed" : "open", Verified(l),
            ]));
        foreach (var l in ledgers)
        {
            if (l.Differs is var (serial, since))
            {
                var whose = l.Cell is null ? "a service without cells" : $"cell {l.Cell}";
                Plain.Line($"ledger {l.Ledger} of {whose} differs from entry {Text(serial)} on, found {times.Second(since)}: it was rolled back, or copied and "
                    + "continued twice; nothing of it is stored from there on. Find the folder that has the right ledger, and compare both with stockseat "
                    + "ledger verify");
            }
        }

        if (ledgers.Count == 0)
        {
            Plain.Line("no service has sent anything yet");
        }
    }

    /// <summary>How far it was intact when it was verified the last time.</summary>
    private static string Verified(StoredLedger ledger) => ledger.Verified is not var (intact, to, _) ? "never"
        : !intact ? "not intact" : to == ledger.Last ? "intact" : $"intact up to {Text(to)}";

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);
}
