using System.CommandLine;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Tabulating;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Usage;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;
using Stockseat.Service.Configuration;
using Stockseat.Sheets.Cards;

namespace Stockseat.Cli.Commands;

/// <summary>Tabulates what a revision answers, diameter by diameter, and makes a card of it for the day when the network is down.</summary>
internal static class TableCommand
{
    public static Command Make()
    {
        var fixture = RevisionFiles.Fixture();
        var number = new Argument<int?>("REVISION")
        {
            Description = "the revision, read from its file; without it the one in force, which the service is asked for", Arity = ArgumentArity.ZeroOrOne,
            CustomParser = r => FixtureCommands.Number(r),
        };
        var o = new TableOptions();
        var command = new ShownCommand(
            "table", "prints diameter, shift and corrected origin in steps, or makes a card of them to hang up",
            "fixture table pinbed-1 --from 85mm --to 95mm --step 0.5mm", "fixture table pinbed-1 3 --config config/stockseat.json --card pinbed-1.html")
        { fixture, number };
        o.AddTo(command);
        command.SetAction(async (parsed, _) =>
        {
            var (name, revision, server) = (parsed.GetValue(fixture)!, parsed.GetValue(number), o.Server.Of(parsed));
            if (o.Fault(parsed) is { } fault)
            {
                Console.Error.WriteLine(Plain.Text(fault));
                return ExitCodes.Usage;
            }

            if (ServeCommand.Read(parsed, o.Config) is not { } settings || !GaugeOption.TryFind(settings, parsed.GetValue(o.Gauge), out var from))
            {
                return ExitCodes.Usage;
            }

            Task<int> Print(Revision found, InForce inForce) => Task.FromResult(Tabulate(found, inForce, new(o, parsed, from, settings.Display)));
            return revision is not null || RevisionFiles.IsPath(name)
                ? await OfFile(settings, name, revision, server, Print)
                : await OfService(name, server, Print);
        });
        return command;
    }

    private static async Task<int> OfFile(Settings settings, string fixture, int? number, ServiceAccess server, Func<Revision, InForce, Task<int>> print)
    {
        if (RevisionFiles.Find(settings, fixture, number) is not { } file)
        {
            return ExitCodes.Failed;
        }

        if (file.Reading.Revision is { } revision)
        {
            return await print(revision, await InForceReading.Ask(server, revision));
        }

        foreach (var fault in file.Reading.Faults)
        {
            Console.Error.WriteLine(Plain.Text(fault));
        }

        return ExitCodes.Refused;
    }

    private static async Task<int> OfService(string fixture, ServiceAccess server, Func<Revision, InForce, Task<int>> print)
    {
        var code = await ServiceClient.Run(server, async client =>
        {
            if (await InForceReading.Get(client, fixture) is { } found)
            {
                return await print(found.Revision, found.InForce);
            }

            Console.Error.WriteLine(
                Plain.Text(
                    $"the revision of {fixture} that {server.Server} has in force can't be read here: this program is another version than the service; use "
                        + $"the program that the service runs"));
            return ExitCodes.Failed;
        });
        if (code == ExitCodes.Failed)
        {
            Console.Error.WriteLine(
                "Without REVISION the one in force is shown, and only the service knows which that is. Name a REVISION, or its file, to do without the "
                    + "service; the table then says that it is not known whether it is in force.");
        }

        return code;
    }

    private static int Tabulate(Revision revision, InForce inForce, in TableRequest request)
    {
        if (OffsetTable.Of(revision, request.Purpose, request.Nest, request.From, request.Steps, out var refusal, out var fault) is not { } table)
        {
            Console.Error.WriteLine(Plain.Text(refusal is null ? fault : $"refused: {refusal.Info.Name}: {refusal.In(request.Display.Length)}"));
            return refusal is null ? ExitCodes.Usage : refusal.Info.ExitCode;
        }

        if (inForce.Is != true && (request.Json || request.Csv || request.Card is not null))
        {
            Console.Error.WriteLine(Plain.Text($"{revision.Fixture} revision {revision.Number}: {inForce.Said}"));
        }

        if (request.Card is { } card)
        {
            return PageFile.Write(card, OffsetCard.Page(table, inForce, TimeProvider.System.GetUtcNow(), request.Display));
        }

        if (request.Json)
        {
            Json.Line(OffsetTableJson.Of(table, inForce));
        }
        else if (request.Csv)
        {
            Console.Out.Write(OffsetTableCsv.Of(table, inForce, request.Inches));
        }
        else
        {
            var unit = request.Display.Length;
            OffsetTableView.Print(table, inForce, unit, request.Inches && unit != LengthUnit.Inch ? LengthUnit.Inch : null);
        }

        return ExitCodes.Done;
    }
}
