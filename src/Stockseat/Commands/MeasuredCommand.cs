using System.CommandLine;
using System.Text.Json.Nodes;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Cli.Usage;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

internal static class MeasuredCommand
{
    public static Command Make()
    {
        var fixture = new Argument<string>("FIXTURE") { Description = "the fixture whose stock was measured" };
        var lengths = new Argument<string[]>("LENGTH")
        {
            Description = "one or more readings, each with its unit; the diameter is their mean", Arity = ArgumentArity.OneOrMore,
        };
        lengths.Validators.Add(result =>
        {
            foreach (var token in result.Tokens)
            {
                if (Seating.Quantities.Quantity.TryParseLength(token.Value, allowSign: false, out var metres) is var fault
                    && (fault != Seating.Quantities.QuantityFault.None || metres <= 0))
                {
                    result.AddError(Common.NotALength(token.Value, fault, metres));
                }
            }
        });
        var gauge = new Option<string?>("--gauge") { HelpName = "G", Description = "the gauge, by its name in the configuration" };
        var lot = new Option<string?>("--lot") { HelpName = "L", Description = "the lot of the stock" };
        var length = new Option<double?>("--length")
        {
            HelpName = "LENGTH", Description = "the length of the stock, for a fixture whose position follows it", CustomParser = r => Common.Length(r),
        };
        var nest = Common.Nest("the nest whose blank was measured, of the load that was stated; without it the stock of the whole fixture");
        var (tag, server, json) = (Common.Tag(), Common.Server(), Common.Json());
        var command = new ShownCommand(
            "measured", "records a measured diameter of the stock", "measured pinbed-1 92.40mm",
            "measured pinbed-1 92.38mm 92.42mm --gauge bench-2 --lot A1077")
        { fixture, lengths, length, gauge, lot, nest, tag, server, json };
        command.SetAction(async (parsed, cancellation) =>
        {
            var texts = parsed.GetValue(lengths)!;
            var request = new RecordRequest
            {
                Fixture = parsed.GetValue(fixture),
                Gauge = parsed.GetValue(gauge) ?? "",
                Lot = parsed.GetValue(lot) ?? "",
                Tag = parsed.GetValue(tag) ?? "",
                RequestId = ServiceClient.NewRequest(),
                Unit = texts.Select(Seating.Quantities.Quantity.UnitOf).Distinct().ToArray() is [var unit] ? unit : "",
            };
            if (parsed.GetValue(length) is { } along)
            {
                request.LengthMetres = along;
            }

            if (parsed.GetValue(nest) is [var column, var row])
            {
                (request.Column, request.Row) = (column, row);
            }

            foreach (var text in texts)
            {
                _ = Seating.Quantities.Quantity.TryParseLength(text, allowSign: false, out var metres);
                request.ReadingsMetres.Add(metres);
            }

            return await ServiceClient.Run(server.Of(parsed), async client =>
            {
                var response = await client.Call(token => client.Gauge.RecordAsync(request, cancellationToken: token));
                if (parsed.GetValue(json))
                {
                    Json.Line(Of(request, response));
                }
                else
                {
                    var unit = DisplayOptions.Of(parsed).Length;
                    var spread = response.HasSpreadMetres
                        ? $", mean of {response.Readings} readings that spread by {unit.FixedText(response.SpreadMetres)}" : "";
                    var at = request.HasColumn ? $", nest {request.Column},{request.Row}," : "";
                    Plain.Line($"measurement {response.Serial}: {request.Fixture}{at} {unit.FixedText(response.DiameterMetres)}{spread}");
                }

                return ExitCodes.Done;
            });
        });
        return command;
    }

    private static DoneShape Of(RecordRequest request, RecordResponse response) => new(response.Serial)
    {
        Fixture = request.Fixture,
        Diameter = response.DiameterMetres,
        Unit = "m",
        Readings = response.HasSpreadMetres ? response.Readings : null,
        Spread = response.HasSpreadMetres ? response.SpreadMetres : null,
    };
}
