using System.CommandLine;
using Stockseat.Audit.Reviewing;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Showing;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Reviews;
using Stockseat.Cli.Usage;
using Stockseat.Fixtures.Files;
using Stockseat.Ledger.Reading;
using Stockseat.Sheets.Reports;

namespace Stockseat.Cli.Commands;

/// <summary>Shows the minutes around an instant, from a ledger's folder or from the running service.</summary>
internal static class ReviewCommand
{
    public static Command Make()
    {
        var (minutes, demands) = (new ReviewOptions(), new VerifyDemands.Options());
        var verify =
            new Option<bool>("--verify") { Description = "also verifies the whole ledger; --html, --against, --key and --require-seal do so too" };
        var csv = new Option<bool>("--csv") { Description = "prints the entries as comma-separated values, with what was found about each; lengths in metres" };
        var html = new Option<string?>("--html") { HelpName = "FILE", Description = "writes the report to a new file: a page to print and hand over" };
        var (from, server, json) = (new LedgerFrom(), Common.Server(), new Option<bool>("--json")
        {
            Description = "output for programs: one JSON object",
        });
        var command = new ShownCommand(
            "review", "shows the minutes around an instant: what was in force, measured and served, and what to look at",
            "ledger review --at 2026-11-25T09:00:00 --before 5min", "ledger review --at 1042 --data data --html report.html");
        minutes.AddTo(command);
        command.Options.Add(verify);
        demands.AddTo(command);
        foreach (var option in new Option[] { csv, html, server, json })
        {
            command.Options.Add(option);
        }

        from.AddTo(command);
        command.Validators.Add(r =>
        {
            if (new[] { r.GetValue(csv), r.GetValue(json), r.GetValue(html) is not null }.Count(s => s) > 1)
            {
                r.AddError("--json, --csv and --html are three forms of one review; name only one of them");
            }
        });
        command.SetAction(async (parsed, token) =>
        {
            var whole = parsed.GetValue(verify) || parsed.GetValue(html) is not null || demands.Stated(parsed);
            if (await demands.Read(parsed, token) is not { } against)
            {
                return ExitCodes.Failed;
            }

            var (question, display) = (minutes.Of(parsed), DisplayOptions.Of(parsed));
            int Print(Review review) => Write(review, parsed.GetValue(json), parsed.GetValue(csv), parsed.GetValue(html), display);
            return from.IsService(parsed)
                ? await ServiceClient.Run(server.Of(parsed), async client =>
                    Print(
                        ReviewReading.Of(
                            question, display, await ServiceClient.CallLong(
                                t => client.Ledger.ReviewAsync(ReviewOptions.Request(question, whole ? against : null), cancellationToken: t)))))
                : await from.Run(parsed, whole ? null : question, (folder, plant) => Task.FromResult(LedgerFolder.Try(
                    () => Make(folder, question, whole ? against : null, display, plant, token) is { } review ? Print(review)
                        : NoEntry(folder, question.Serial!.Value))), token);
        });
        return command;
    }

    private static Review? Make(
        string folder, ReviewQuestion question, VerifyDemands? demands, Display display, string? plant, CancellationToken token) => LedgerReview.Of(
        folder, question, demands is null ? null : () => LedgerVerifyCommand.Verify(folder, demands.For(folder), always: false, token).With(folder), display,
        token, plant);

    private static int NoEntry(string folder, long serial)
    {
        using var reader = LedgerReader.Open(folder);
        Console.Error.WriteLine(
            $"there is no entry {serial}; the last one is "
                + $"{reader.Last}{(reader.First > 1 ? $", and this ledger begins with {reader.First} since it rolled over" : "")}");
        return ExitCodes.Failed;
    }

    /// <summary>Writes it in the form that was asked for; 0 when all that it shows is intact and follows from its inputs.</summary>
    private static int Write(Review review, bool json, bool csv, string? html, Display display)
    {
        if (html is not null)
        {
            return Write(html, ReviewReport.Page(review, display, TimeProvider.System.GetUtcNow())) ? Code(review.Evidence) : ExitCodes.Failed;
        }

        if (json)
        {
            Json.Line(ReviewJson.Of(review));
        }
        else if (csv)
        {
            Console.Out.Write(ReviewCsv.Of(review, Plain.OnTerminal));
        }
        else
        {
            ReviewText.Print(review, display);
        }

        return Code(review.Evidence);
    }

    private static int Code(Evidence evidence) =>
        evidence.ChainFault is not null || evidence.Plant is not null || evidence.Whole is { ExitCode: 1 } || evidence.Replay.ExitCode == 1 ? ExitCodes.Refused
        : evidence.Whole is { ExitCode: 2 } || evidence.Replay.ExitCode == 2 ? ExitCodes.Failed : ExitCodes.Done;

    private static bool Write(string file, string page)
    {
        try
        {
            using var made = NewFile.Begin(file);
            made.Text.Write(page);
            made.Finish();
            Console.Error.WriteLine(Plain.Text($"the report is in {file}"));
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine(Plain.Text($"the report could not be written: {e.Message.TrimEnd('.')}"));
            return false;
        }
    }
}
