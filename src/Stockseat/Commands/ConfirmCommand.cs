using System.CommandLine;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Cli.Usage;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

internal static class ConfirmCommand
{
    public static Command Make()
    {
        var serial = new Argument<long>("SERIAL") { Description = "the serial of the answer", CustomParser = r => Common.Whole(r, "serial", long.MaxValue) };
        var read = new Option<string[]>("--read")
        {
            HelpName = "NAME=VALUE",
            Description =
                "a number of the answer as the controller read it back, lengths in metres as in a line's reply, for example by=0.006308; read back every "
                + "number of bx by bz that is not 0",
            AllowMultipleArgumentsPerToken = true,
            DefaultValueFactory = _ => [],
        };
        read.Validators.Add(result =>
        {
            foreach (var token in result.Tokens.Where(t => !t.Value.Contains('=', StringComparison.Ordinal)))
            {
                result.AddError($"'{token.Value}' is not NAME=VALUE; a number read back was expected, for example by=0.006308");
            }
        });
        var (tag, server, json) = (Common.Tag(), Common.Server(), Common.Json());
        var command = new ShownCommand(
            "confirm", "records that a controller received an answer, with the numbers that it read back",
            "confirm 1042 --read bx=-0.004731 by=0.006308 bz=0.002300")
        { serial, read, tag, server, json };
        command.SetAction(async (parsed, _) => await ServiceClient.Run(server.Of(parsed), async client =>
        {
            var request = new ConfirmRequest { Serial = parsed.GetValue(serial), Tag = parsed.GetValue(tag) ?? "", RequestId = ServiceClient.NewRequest() };
            foreach (var pair in parsed.GetValue(read)!)
            {
                request.ReadBack[pair[..pair.IndexOf('=', StringComparison.Ordinal)]] = pair[(pair.IndexOf('=', StringComparison.Ordinal) + 1)..];
            }

            var response = await client.Call(token => client.Lookup.ConfirmAsync(request, cancellationToken: token));
            if (parsed.GetValue(json))
            {
                Json.Line(new DoneShape(response.Serial) { Confirms = response.Confirms });
            }
            else
            {
                Plain.Line(
                    $"confirmation {response.Serial} of answer {response.Confirms}"
                        + (response.HasNumbers ? "" : "; no number was read back, so the answer does not count as received"));
            }

            return ExitCodes.Done;
        }));
        return command;
    }
}
