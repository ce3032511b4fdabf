using System.CommandLine;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Usage;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

internal static class LocateCommand
{
    public static Command Make()
    {
        var fixture = new Argument<string>("FIXTURE") { Description = "the fixture" };
        var diameter = new Option<double?>("--diameter")
        {
            HelpName = "LENGTH", Description = "the stock's diameter with its unit, for example 92.40mm; without it the newest measurement",
            CustomParser = r => Common.Length(r),
        };
        var length = new Option<double?>("--length")
        {
            HelpName = "LENGTH", Description = "the stock's length, together with --diameter, for a fixture whose position follows it",
            CustomParser = r => Common.Length(r),
        };
        var lot = new Option<string?>("--lot")
        {
            HelpName = "L", Description = "the stock's lot: the measurement must be of this lot, and the diameter within the lot's limits",
        };
        var nominal = new Option<double?>("--nominal")
        {
            HelpName = "LENGTH", Description = "the expected diameter; a diameter further from it than --within is refused",
            CustomParser = r => Common.Length(r),
        };
        var within = new Option<double?>("--within")
        {
            HelpName = "LENGTH", Description = "how far from --nominal the diameter may be", CustomParser = r => Common.Length(r),
        };
        var purpose = Common.Purpose();
        var nest = Common.Nest();
        var budget = new Option<bool>("--budget") { Description = "also prints what the uncertainty is made of" };
        var (tag, server, json) = (Common.Tag(), Common.Server(), Common.Json());
        var command = new ShownCommand(
            "locate", "asks where the grid origin, or another nest, is now", "locate pinbed-1 --diameter 92.40mm",
            "locate pinbed-1 --lot A1077 --purpose place --nest 2,1")
        {
            fixture, diameter, length, lot, nominal, within, purpose, nest, budget, tag, server, json,
        };
        command.SetAction(async (parsed, _) =>
        {
            int[] at = parsed.GetValue(nest) is [var column, var row] ? [column, row] : [0, 0];
            var request = new LocateRequest
            {
                Fixture = parsed.GetValue(fixture),
                Lot = parsed.GetValue(lot) ?? "",
                Purpose = parsed.GetValue(purpose) == "place" ? Purpose.Place : Purpose.Pick,
                Column = at[0],
                Row = at[1],
                Tag = parsed.GetValue(tag) ?? "",
                RequestId = ServiceClient.NewRequest(),
                Budget = parsed.GetValue(budget),
            };
            if (parsed.GetValue(diameter) is { } metres)
            {
                request.DiameterMetres = metres;
            }

            if (parsed.GetValue(length) is { } along)
            {
                request.LengthMetres = along;
            }

            if (parsed.GetValue(nominal) is { } near)
            {
                request.NominalMetres = near;
            }

            if (parsed.GetValue(within) is { } limit)
            {
                request.WithinMetres = limit;
            }

            return await ServiceClient.Run(server.Of(parsed), async client =>
            {
                AnswerView.Print(await client.Call(token => client.Lookup.LocateAsync(request, cancellationToken: token)), parsed.GetValue(json),
                    DisplayOptions.Of(parsed).Length);
                return ExitCodes.Done;
            });
        });
        return command;
    }
}
