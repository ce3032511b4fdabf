using System.CommandLine;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Verifying;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

/// <summary>Has the ledger roll over.</summary>
internal static class LedgerRoll
{
    public static Command Make()
    {
        var by = new Option<string>("--by") { HelpName = "WHO", Description = "who has it roll over", Required = true };
        var why = new Option<string>("--why") { HelpName = "WHY", Description = "why", Required = true };
        var (server, json) = (Common.Server(), Common.Json());
        var command = new Command("roll", "the ledger ends, and a new one goes on with what holds; serials go on") { by, why, server, json };
        command.SetAction(async (parsed, _) => await ServiceClient.Run(parsed.GetValue(server)!, async client =>
        {
            var request = new RollRequest { By = parsed.GetValue(by), Why = parsed.GetValue(why), RequestId = ServiceClient.NewRequest() };
            var r = await client.Call(token => client.Ledger.RollAsync(request, cancellationToken: token));
            if (parsed.GetValue(json))
            {
                Json.Line(new DoneShape(r.Serial) { Next = r.Next });
            }
            else
            {
                Plain.Line($"entry {r.Serial}: the ledger ends, and ledger {r.Next} goes on");
                Plain.Line(
                    $"The old one is in the folder {ClosedLedgers.Folder} of the data folder. It may be moved away; entries in it are found while it "
                        + "is there.");
            }

            return ExitCodes.Done;
        }));
        return command;
    }

    /// <summary>The same with what the links between the ledgers of a folder say.</summary>
    public static Verification With(this Verification v, string folder)
    {
        var findings = new List<string>(v.Findings);
        var faults = LedgerLinks.Check(folder, findings.Add);
        return v with { Faults = [.. v.Faults, .. faults], Findings = findings };
    }
}
