using System.CommandLine;
using Stockseat.Audit.Copying;
using Stockseat.Cli.Output;
using Stockseat.Cli.Usage;

namespace Stockseat.Cli.Commands;

/// <summary>Copies a ledger from its folder, while the service runs or is stopped.</summary>
internal static class LedgerCopying
{
    public static Command Make()
    {
        var data = new Option<string>("--data") { HelpName = "DIR", Description = "the data folder, of a running or a stopped service", Required = true };
        var output =
            new Option<string>("--output") { HelpName = "DIR", Description = "the folder for the copy; it must not have a ledger yet", Required = true };
        var command = new ShownCommand(
            "copy", "copies the ledger as it is now and verifies the copy; exit code 0 intact, 1 copied but not intact, 2 not copied",
            "ledger copy --data data --output copy-of-data")
        { data, output };
        command.SetAction((parsed, token) => Task.FromResult(LedgerFolder.Try(() => Run(parsed.GetValue(data)!, parsed.GetValue(output)!, token))));
        return command;
    }

    private static int Run(string data, string output, CancellationToken token)
    {
        var progress = Progress.OnTerminal();
        var copied = LedgerCopy.Make(data, output, progress.Tell, token);
        progress.End();
        Plain.Line(copied.Whole
            ? $"{copied.Entries} entries of ledger {copied.Ledger} in {output}, intact, head {copied.HeadSerial} {copied.HeadHash}"
            : $"{copied.Entries} entries in {output}, not intact, like the ledger they were copied from; see stockseat ledger verify --data {output}");
        return copied.ExitCode;
    }
}
