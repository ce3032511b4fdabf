using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using Stockseat.Answers.Records;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

internal static class LocateCommand
{
    public static Command Make()
    {
        var fixture = new Argument<string>("FIXTURE") { Description = "the fixture" };
        var diameter = new Option<double?>("--diameter") { HelpName = "LENGTH", Description = "with its unit, for example 92.40mm; without it the freshest measurement", CustomParser = r => Common.Length(r) };
        var lot = new Option<string?>("--lot") { HelpName = "L", Description = "the lot that the measurement must be of" };
        var nominal = new Option<double?>("--nominal") { HelpName = "LENGTH", Description = "the diameter used has to be near this one; with --within", CustomParser = r => Common.Length(r) };
        var within = new Option<double?>("--within") { HelpName = "LENGTH", Description = "how near", CustomParser = r => Common.Length(r) };
        var purpose = new Option<string>("--purpose") { Description = "pick or place", DefaultValueFactory = _ => "pick" };
        purpose.AcceptOnlyFromAmong("pick", "place");
        var nest = new Option<int[]>("--nest") { Description = "column,row; 0,0, the grid origin, unless stated", HelpName = "C,R", CustomParser = ParseNest };
        var (tag, server, json) = (Common.Tag(), Common.Server(), Common.Json());
        var command = new Command("locate", "asks where the grid origin, or a nest, now is") { fixture, diameter, lot, nominal, within, purpose, nest, tag, server, json };
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
            };
            if (parsed.GetValue(diameter) is { } metres)
            {
                request.DiameterMetres = metres;
            }

            if (parsed.GetValue(nominal) is { } near)
            {
                request.NominalMetres = near;
            }

            if (parsed.GetValue(within) is { } limit)
            {
                request.WithinMetres = limit;
            }

            return await ServiceClient.Run(parsed.GetValue(server)!, async client =>
            {
                Print(await client.Call(token => client.Lookup.LocateAsync(request, cancellationToken: token)), parsed.GetValue(json));
                return ExitCodes.Done;
            });
        });
        return command;
    }

    private static int[] ParseNest(System.CommandLine.Parsing.ArgumentResult result)
    {
        var parts = result.Tokens[^1].Value.Split(',');
        if (parts.Length == 2 && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var column)
            && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var row))
        {
            return [column, row];
        }

        result.AddError($"'{result.Tokens[^1].Value}' is no nest; column,row such as 2,1 was expected");
        return [0, 0];
    }

    private static void Print(LocateResponse a, bool json)
    {
        if (json)
        {
            Json.Line(Of(a));
            return;
        }

        var from = a.HasMeasurement ? string.Create(CultureInfo.InvariantCulture, $"measurement {a.Measurement}, {a.AgeSeconds:0} s old") : "stated";
        Plain.Table(["what", "value"],
        [
            ["serial", a.Serial.ToString(CultureInfo.InvariantCulture)],
            ["fixture, revision, digest", $"{a.Fixture}, {a.Revision}, {a.Digest[..12]}"],
            ["purpose, nest", $"{(a.Purpose == Purpose.Place ? "place" : "pick")}, {a.Column},{a.Row}"],
            ["diameter [m]", $"{FixedPoint.Text(a.DiameterMetres)} ({from})"],
            ["position x y z in base [m]", Three(a.PositionMetres)],
            ["orientation w x y z", string.Join("  ", new[] { a.Orientation.W, a.Orientation.X, a.Orientation.Y, a.Orientation.Z }.Select(v => FixedPoint.Text(v)))],
            ["shift bx by bz in base [m]", Three(a.ShiftBaseMetres)],
            ["shift ox oy oz in the origin's axes [m]", Three(a.ShiftOriginMetres)],
            ["first", a.First ? "yes: run it at reduced speed with people clear" : "no"],
        ]);
    }

    private static string Three(Vector v) => $"{FixedPoint.Text(v.X)}  {FixedPoint.Text(v.Y)}  {FixedPoint.Text(v.Z)}";

    private static JsonObject Of(LocateResponse a)
    {
        var value = new JsonObject
        {
            ["serial"] = a.Serial,
            ["fixture"] = a.Fixture,
            ["revision"] = a.Revision,
            ["digest"] = a.Digest,
            ["purpose"] = a.Purpose == Purpose.Place ? "place" : "pick",
            ["nest"] = new JsonArray(a.Column, a.Row),
            ["diameter"] = a.DiameterMetres,
            ["unit"] = "m",
            ["first"] = a.First,
            ["position"] = Vector(a.PositionMetres),
            ["orientation"] = new JsonArray(a.Orientation.W, a.Orientation.X, a.Orientation.Y, a.Orientation.Z),
            ["shiftBase"] = Vector(a.ShiftBaseMetres),
            ["shiftOrigin"] = Vector(a.ShiftOriginMetres),
        };
        if (a.HasMeasurement)
        {
            value["measurement"] = a.Measurement;
            value["age"] = a.AgeSeconds;
        }

        if (a.Tag.Length > 0)
        {
            value["tag"] = a.Tag;
        }

        return value;
    }

    private static JsonArray Vector(Vector v) => new(v.X, v.Y, v.Z);
}
