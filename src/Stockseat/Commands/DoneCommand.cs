using System.CommandLine;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Cli.Usage;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

/// <summary>Says that the move of an answer was carried out and went well.</summary>
internal static class DoneCommand
{
    public static Command Make()
    {
        var serial = new Argument<long>("SERIAL") { Description = "the serial of the answer", CustomParser = r => Common.Whole(r, "serial", long.MaxValue) };
        var by = new Option<string?>("--by") { HelpName = "WHO", Description = "who says so; without it the controller" };
        var (tag, server, json) = (Common.Tag(), Common.Server(), Common.Json());
        var command = new ShownCommand(
            "done", "records that the move of an answer was carried out and went well; the answer must have been confirmed with its numbers", "done 1042")
        { serial, by, tag, server, json };
        command.SetAction(async (parsed, _) => await ServiceClient.Run(server.Of(parsed), async client =>
        {
            var request = new ReportDoneRequest
            {
                Serial = parsed.GetValue(serial),
                By = parsed.GetValue(by) ?? "",
                Tag = parsed.GetValue(tag) ?? "",
                RequestId = ServiceClient.NewRequest(),
            };
            var response = await client.Call(token => client.Lookup.ReportDoneAsync(request, cancellationToken: token));
            if (parsed.GetValue(json))
            {
                Json.Line(new DoneShape(response.Serial) { Done = response.Done });
            }
            else
            {
                Plain.Line($"entry {response.Serial}: answer {response.Done} was carried out");
            }

            return ExitCodes.Done;
        }));
        return command;
    }
}
