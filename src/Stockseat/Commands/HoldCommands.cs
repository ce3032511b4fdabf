using System.CommandLine;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Cli.Usage;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

internal static class HoldCommands
{
    public static Command Hold()
    {
        var (fixture, by, why, server, json) = Options("who is at the fixture");
        var command = new ShownCommand(
            "hold", "records that somebody is at the fixture: every ask is refused until the release",
            "fixture hold pinbed-1 --by \"day setter\" --why \"cleaning the nests\"")
        { fixture, by, why, server, json };
        command.SetAction(async (parsed, _) => await ServiceClient.Run(server.Of(parsed), async client =>
        {
            var request = new HoldRequest
            {
                Fixture = parsed.GetValue(fixture),
                By = parsed.GetValue(by),
                Why = parsed.GetValue(why),
                RequestId = ServiceClient.NewRequest(),
            };
            var r = await client.Call(token => client.Fixtures.HoldAsync(request, cancellationToken: token));
            if (parsed.GetValue(json))
            {
                Json.Line(new DoneShape(r.Serial) { Fixture = r.Fixture });
            }
            else
            {
                Plain.Line($"entry {r.Serial}: {r.Fixture} is held by {request.By}");
                Plain.Line("Asks are refused until it is released. A hold stops no robot: a program that already has its answer runs on.");
            }

            return ExitCodes.Done;
        }));
        return command;
    }

    public static Command Release()
    {
        var (fixture, by, why, server, json) = Options("who releases it");
        var of = new Option<string?>("--of") { HelpName = "WHO", Description = "whose hold to end; without it the hold of --by" };
        var command = new ShownCommand(
            "release", "ends a hold; the fixture answers again when its last hold is released",
            "fixture release pinbed-1 --by \"day setter\" --why \"nests are clean\"")
        { fixture, by, why, of, server, json };
        command.SetAction(async (parsed, _) => await ServiceClient.Run(server.Of(parsed), async client =>
        {
            var request = new ReleaseRequest
            {
                Fixture = parsed.GetValue(fixture),
                By = parsed.GetValue(by),
                Why = parsed.GetValue(why),
                Of = parsed.GetValue(of) ?? "",
                RequestId = ServiceClient.NewRequest(),
            };
            var r = await client.Call(token => client.Fixtures.ReleaseAsync(request, cancellationToken: token));
            if (parsed.GetValue(json))
            {
                Json.Line(new DoneShape(r.Serial) { Fixture = r.Fixture, Left = r.Left });
            }
            else
            {
                Plain.Line($"entry {r.Serial}: {r.Fixture} {(r.Left == 0 ? "is held by nobody" : $"is still held, by {r.Left}: see stockseat fixture list")}");
            }

            return ExitCodes.Done;
        }));
        return command;
    }

    private static (Argument<string> Fixture, Option<string> By, Option<string> Why, ServerOption Server, Option<bool> Json) Options(string who) => (
        new("FIXTURE") { Description = "the fixture" },
        new("--by") { HelpName = "WHO", Description = who, Required = true },
        new("--why") { HelpName = "WHY", Description = "why, in a few words", Required = true },
        Common.Server(),
        Common.Json());
}
