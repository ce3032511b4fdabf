using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Cli.Usage;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

/// <summary>What stands in the nests, which nest is next, and a move that was not carried out.</summary>
internal static class LoadCommands
{
    public static Command Loaded()
    {
        var fixture = new Argument<string>("FIXTURE") { Description = "the fixture whose nests were filled" };
        var lot = new Option<string?>("--lot") { HelpName = "L", Description = "the lot of the stock" };
        var first = new Option<int?>("--first")
        {
            HelpName = "N", Description = "only so many nests, the first ones, row by row; 0: none, as in an empty rack; without it and --nests all nests",
            CustomParser = r => (int)Common.Whole(r, "number of nests", int.MaxValue, least: 0),
        };
        var nests = new Option<int[][]?>("--nests")
        {
            HelpName = "C,R", Description = "only these nests, each as column,row; it may be stated several times", AllowMultipleArgumentsPerToken = true,
            CustomParser = Nests,
        };
        var (tag, server, json) = (Common.Tag(), Common.Server(), Common.Json());
        var command = new ShownCommand(
            "loaded", "records what stands in the nests: a load, of which next gives nest by nest", "loaded pinbed-1 --lot A1077 --first 12",
            "loaded pinbed-1 --nests 0,0 1,0 2,0")
        { fixture, lot, first, nests, tag, server, json };
        command.SetAction(async (parsed, _) => await ServiceClient.Run(server.Of(parsed), async client =>
        {
            var request = new ReportLoadedRequest
            {
                Fixture = parsed.GetValue(fixture)!, Lot = parsed.GetValue(lot) ?? "", Tag = parsed.GetValue(tag) ?? "", RequestId = ServiceClient.NewRequest(),
            };
            if (parsed.GetValue(first) is { } count)
            {
                request.First = count;
            }

            request.Nests.AddRange((parsed.GetValue(nests) ?? []).Select(n => new Nest { Column = n[0], Row = n[1] }));
            Print(request.Fixture, await client.Call(token => client.Loads.ReportLoadedAsync(request, cancellationToken: token)), parsed.GetValue(json));
            return ExitCodes.Done;
        }));
        return command;
    }

    public static Command Next()
    {
        var fixture = new Argument<string>("FIXTURE") { Description = "the fixture" };
        var diameter = new Option<double?>("--diameter")
        {
            HelpName = "LENGTH", Description = "the diameter with its unit; without it the measurement of that nest, or of the fixture",
            CustomParser = r => Common.Length(r),
        };
        var length = new Option<double?>("--length")
        {
            HelpName = "LENGTH", Description = "the stock's length, together with --diameter, for a fixture whose position follows it",
            CustomParser = r => Common.Length(r),
        };
        var lot = new Option<string?>("--lot") { HelpName = "L", Description = "the lot that the stock of that nest must have" };
        var purpose = Common.Purpose();
        var trial = new Option<bool>("--trial") { Description = "changes nothing: for training, and for testing a program" };
        var after = new Option<int[]?>("--after")
        {
            HelpName = "C,R", Description = "in a trial: the nest after which the next one is looked for", CustomParser = r =>
                Nests(r) is [var one] ? one : null,
        };
        var (tag, server, json) = (Common.Tag(), Common.Server(), Common.Json());
        var command = new ShownCommand(
            "next", "asks for the next nest of the load: for a pick the next with raw stock, for a place the next empty one", "next pinbed-1",
            "next pinbed-1 --purpose place --diameter 80.2mm")
        { fixture, diameter, length, lot, purpose, trial, after, tag, server, json };
        command.SetAction(async (parsed, _) => await ServiceClient.Run(server.Of(parsed), async client =>
        {
            var request = new NextRequest
            {
                Fixture = parsed.GetValue(fixture),
                Lot = parsed.GetValue(lot) ?? "",
                Purpose = parsed.GetValue(purpose) == "place" ? Purpose.Place : Purpose.Pick,
                Trial = parsed.GetValue(trial),
                After = parsed.GetValue(after) is [var column, var row] ? new() { Column = column, Row = row } : null,
                Tag = parsed.GetValue(tag) ?? "",
                RequestId = ServiceClient.NewRequest(),
            };
            if (parsed.GetValue(diameter) is { } metres)
            {
                request.DiameterMetres = metres;
            }

            if (parsed.GetValue(length) is { } along)
            {
                request.LengthMetres = along;
            }

            var response = await client.Call(token => client.Loads.NextAsync(request, cancellationToken: token));
            AnswerView.Print(response.Answer, parsed.GetValue(json), DisplayOptions.Of(parsed).Length, (response.Load, response.Left));
            return ExitCodes.Done;
        }));
        return command;
    }

    public static Command Dropped()
    {
        var serial = new Argument<long>("SERIAL") { Description = "the serial of the answer", CustomParser = r => Common.Whole(r, "serial", long.MaxValue) };
        var by = new Option<string?>("--by") { HelpName = "WHO", Description = "who says so; without it the controller" };
        var (tag, server, json) = (Common.Tag(), Common.Server(), Common.Json());
        var command = new ShownCommand(
            "dropped", "records that the move of an answer of a load was not carried out: its nest is as it was", "dropped 1042 --by \"day setter\"")
        { serial, by, tag, server, json };
        command.SetAction(async (parsed, _) => await ServiceClient.Run(server.Of(parsed), async client =>
        {
            var request = new ReportDroppedRequest
            {
                Serial = parsed.GetValue(serial), By = parsed.GetValue(by) ?? "", Tag = parsed.GetValue(tag) ?? "", RequestId = ServiceClient.NewRequest(),
            };
            var response = await client.Call(token => client.Loads.ReportDroppedAsync(request, cancellationToken: token));
            if (parsed.GetValue(json))
            {
                Json.Line(new DoneShape(response.Serial) { Dropped = response.Dropped });
            }
            else
            {
                Plain.Line($"entry {response.Serial}: answer {response.Dropped} was not carried out; its nest is as it was");
            }

            return ExitCodes.Done;
        }));
        return command;
    }

    private static void Print(string fixture, ReportLoadedResponse response, bool json)
    {
        if (json)
        {
            Json.Line(new DoneShape(response.Serial)
            {
                Fixture = fixture,
                Count = response.Count,
                Replaces = response.HasReplaces ? response.Replaces : null,
                Left = response.HasReplacedLeft ? response.ReplacedLeft : null,
                Unfinished = response.HasUnfinished ? response.Unfinished : null,
            });
            return;
        }

        Plain.Line($"load {response.Serial}: {fixture} has stock in {response.Count} {(response.Count == 1 ? "nest" : "nests")}");
        if (response.HasReplaces)
        {
            var open = response.HasUnfinished ? $"; answer {response.Unfinished} of it was neither done nor dropped" : "";
            Plain.Line($"before this, load {response.Replaces} had {response.ReplacedLeft} left{open}");
        }
    }

    private static int[][]? Nests(ArgumentResult result)
    {
        var nests = new List<int[]>();
        foreach (var text in result.Tokens.Select(t => t.Value))
        {
            if (text.Split(',') is not [var c, var r] || !int.TryParse(c, NumberStyles.None, CultureInfo.InvariantCulture, out var column)
                || !int.TryParse(r, NumberStyles.None, CultureInfo.InvariantCulture, out var row))
            {
                result.AddError($"'{text}' is not a nest; column,row such as 2,1 was expected");
                return null;
            }

            nests.Add([column, row]);
        }

        return [.. nests];
    }
}
