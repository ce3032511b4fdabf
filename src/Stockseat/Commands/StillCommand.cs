using System.CommandLine;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Cli.Usage;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

/// <summary>Asks whether an answer may still be used.</summary>
internal static class StillCommand
{
    public static Command Make()
    {
        var serial = new Argument<long>("SERIAL") { Description = "the serial of the answer", CustomParser = r => Common.Whole(r, "serial", long.MaxValue) };
        var (tag, server, json) = (Common.Tag(), Common.Server(), Common.Json());
        var command = new ShownCommand("still", "asks whether an answer may still be used; exit code 1 when it may not", "still 1042") { serial, tag, server,
            json };
        command.SetAction(async (parsed, _) => await ServiceClient.Run(server.Of(parsed), async client =>
        {
            var request = new StillRequest { Serial = parsed.GetValue(serial), Tag = parsed.GetValue(tag) ?? "" };
            var response = await client.Call(token => client.Lookup.StillAsync(request, cancellationToken: token));
            if (parsed.GetValue(json))
            {
                Json.Line(new DoneShape(response.Serial));
            }
            else
            {
                Plain.Line($"answer {response.Serial} may still be used");
            }

            return ExitCodes.Done;
        }));
        return command;
    }
}
