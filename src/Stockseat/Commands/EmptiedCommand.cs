using System.CommandLine;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Cli.Usage;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

internal static class EmptiedCommand
{
    public static Command Make()
    {
        var fixture = new Argument<string>("FIXTURE") { Description = "the fixture whose nests were emptied or refilled" };
        var (tag, server, json) = (Common.Tag(), Common.Server(), Common.Json());
        var command = new ShownCommand(
            "emptied", "records that the nests were emptied or refilled, which makes the measurement void", "emptied pinbed-1")
        { fixture, tag, server, json };
        command.SetAction(async (parsed, _) => await ServiceClient.Run(server.Of(parsed), async client =>
        {
            var request = new EmptiedRequest { Fixture = parsed.GetValue(fixture), Tag = parsed.GetValue(tag) ?? "", RequestId = ServiceClient.NewRequest() };
            var response = await client.Call(token => client.Gauge.EmptiedAsync(request, cancellationToken: token));
            if (parsed.GetValue(json))
            {
                Json.Line(new DoneShape(response.Serial) { Fixture = request.Fixture });
            }
            else
            {
                Plain.Line($"entry {response.Serial}: {request.Fixture} emptied or refilled; its measurement is void");
            }

            return ExitCodes.Done;
        }));
        return command;
    }
}
