using System.CommandLine;
using Stockseat.Audit.Copying;
using Stockseat.Cli.Output;

namespace Stockseat.Cli.Commands;

/// <summary>Copies a ledger, while its service runs or where it lies.</summary>
internal static class LedgerCopying
{
    public static Command Make()
    {
        var data = new Option<string>("--data") { HelpName = "DIR", Description = "the data folder, of a running or a stopped service", Required = true };
        var output =
            new Option<string>("--output") { HelpName = "DIR", Description = "the folder that gets the copy; one that has no ledger yet", Required = true };
        var command = new Command("copy", "a copy of the ledger as it is now, verified: 0 whole, 1 copied and not whole, 2 not copied") { data, output };
        command.SetAction((parsed, token) => Task.FromResult(LedgerFolder.Try(() => Run(parsed.GetValue(data)!, parsed.GetValue(output)!, token))));
        return command;
    }

    private static int Run(string data, string output, CancellationToken token)
    {
        var progress = Progress.OnTerminal();
        var copied = LedgerCopy.Make(data, output, progress.Tell, token);
        progress.End();
        Plain.Line(copied.Whole
            ? $"{copied.Entries} entries of ledger {copied.Ledger} in {output}, whole, head {copied.HeadSerial} {copied.HeadHash}"
            : $"{copied.Entries} entries in {output}, not whole, like the ledger that they come from; see stockseat ledger verify --data {output}");
        return copied.ExitCode;
    }
}
