using System.CommandLine;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Cli.Usage;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Verifying;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

/// <summary>Makes the ledger roll over.</summary>
internal static class LedgerRoll
{
    public static Command Make()
    {
        var by = new Option<string>("--by") { HelpName = "WHO", Description = "who asks for it", Required = true };
        var why = new Option<string>("--why") { HelpName = "WHY", Description = "why, in a few words", Required = true };
        var (server, json) = (Common.Server(), Common.Json());
        var command = new ShownCommand(
            "roll", "closes the ledger and continues in a new one with all that is in force; the serials continue",
            "ledger roll --by \"plant engineer\" --why \"end of the quarter\"")
        { by, why, server, json };
        command.SetAction(async (parsed, _) => await ServiceClient.Run(server.Of(parsed), async client =>
        {
            var request = new RollRequest { By = parsed.GetValue(by), Why = parsed.GetValue(why), RequestId = ServiceClient.NewRequest() };
            var r = await client.Call(token => client.Ledger.RollAsync(request, cancellationToken: token));
            if (parsed.GetValue(json))
            {
                Json.Line(new DoneShape(r.Serial) { Next = r.Next });
            }
            else
            {
                Plain.Line($"entry {r.Serial}: this ledger is closed, and ledger {r.Next} goes on");
                Plain.Line(
                    $"The closed ledger is in the folder {ClosedLedgers.Folder} of the data folder. It may be moved away; its entries are found only as "
                        + "long as it is there.");
            }

            return ExitCodes.Done;
        }));
        return command;
    }

    /// <summary>Adds what the links between the ledgers of a folder show.</summary>
    public static Verification With(this Verification v, string folder)
    {
        var findings = new List<string>(v.Findings);
        var faults = LedgerLinks.Check(folder, findings.Add);
        return v with { Faults = [.. v.Faults, .. faults], Findings = findings };
    }
}
