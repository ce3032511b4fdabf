using System.CommandLine;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Shapes;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

internal static class EmptiedCommand
{
    public static Command Make()
    {
        var fixture = new Argument<string>("FIXTURE") { Description = "the fixture whose nests were cleared or refilled" };
        var (tag, server, json) = (Common.Tag(), Common.Server(), Common.Json());
        var command = new Command("emptied", "says that the nests were cleared or refilled: the measurement is void") { fixture, tag, server, json };
        command.SetAction(async (parsed, _) => await ServiceClient.Run(parsed.GetValue(server)!, async client =>
        {
            var request = new EmptiedRequest { Fixture = parsed.GetValue(fixture), Tag = parsed.GetValue(tag) ?? "", RequestId = ServiceClient.NewRequest() };
            var response = await client.Call(token => client.Gauge.EmptiedAsync(request, cancellationToken: token));
            if (parsed.GetValue(json))
            {
                Json.Line(new DoneShape(response.Serial) { Fixture = request.Fixture });
            }
            else
            {
                Plain.Line($"entry {response.Serial}: {request.Fixture} emptied or refilled, its measurement is void");
            }

            return ExitCodes.Done;
        }));
        return command;
    }
}
