using System.CommandLine;
using System.Globalization;
using Grpc.Core;
using Stockseat.Answers.Cautions;
using Stockseat.Answers.Entries;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Cli.Usage;
using Stockseat.V1;
using Purpose = Stockseat.V1.Purpose;

namespace Stockseat.Cli.Commands;

/// <summary>Where all nests are, at once.</summary>
internal static class GridCommand
{
    public static Command Make()
    {
        var fixture = new Argument<string>("FIXTURE") { Description = "the fixture" };
        var diameter = new Option<double?>("--diameter")
        {
            HelpName = "LENGTH", Description = "the stock's diameter with its unit; without it the newest measurement", CustomParser = r => Common.Length(r),
        };
        var length = new Option<double?>("--length")
        {
            HelpName = "LENGTH", Description = "the stock's length, together with --diameter, for a fixture whose position follows it",
            CustomParser = r => Common.Length(r),
        };
        var lot = new Option<string?>("--lot") { HelpName = "L", Description = "the stock's lot" };
        var purpose = Common.Purpose();
        var csv = new Option<bool>("--csv") { Description = "comma-separated values" };
        var (tag, server, json) = (Common.Tag(), Common.Server(), Common.Json());
        var command = new ShownCommand(
            "grid", "asks where all nests are, at once; one entry of the ledger holds their number and a digest", "fixture grid pinbed-1 --diameter 92.40mm",
            "fixture grid pinbed-1 --lot A1077 --csv")
        { fixture, diameter, length, lot, purpose, csv, tag, server, json };
        command.SetAction(async (parsed, cancellation) => await ServiceClient.Run(server.Of(parsed), async client =>
        {
            var request = new LocateGridRequest
            {
                Fixture = parsed.GetValue(fixture),
                Lot = parsed.GetValue(lot) ?? "",
                Purpose = parsed.GetValue(purpose) == "place" ? Purpose.Place : Purpose.Pick,
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

            var messages = new List<LocateGridResponse>();
            using var call = client.Loads.LocateGrid(request, cancellationToken: cancellation);
            await foreach (var message in call.ResponseStream.ReadAllAsync(cancellation))
            {
                messages.Add(message);
            }

            Print(messages, parsed.GetValue(json), parsed.GetValue(csv), DisplayOptions.Of(parsed).Length);
            return ExitCodes.Done;
        }));
        return command;
    }

    private static void Print(List<LocateGridResponse> messages, bool json, bool csv, Seating.Quantities.LengthUnit unit)
    {
        var (head, nests) = (messages[0], messages.SelectMany(m => m.Nests).ToList());
        if (json)
        {
            Json.Line(new GridShape(
                head.Answer.Serial, head.Answer.Fixture, head.Answer.Revision, head.Answer.Digest, head.Answer.DiameterMetres, "m", head.Answer.First,
                head.Count, head.PositionsDigest,
                nests.Select(n => new GridNestShape([n.Column, n.Row], [n.PositionMetres.X, n.PositionMetres.Y, n.PositionMetres.Z]))));
            return;
        }

        if (csv)
        {
            using var table = new CsvTable(Console.Out, ["column", "row", "x_m", "y_m", "z_m"]);
            foreach (var n in nests)
            {
                table.Add([Whole(n.Column), Whole(n.Row), .. Metres(n.PositionMetres)]);
            }

            return;
        }

        Plain.Line(
            $"entry {head.Answer.Serial}: {head.Answer.Fixture} revision {head.Answer.Revision}, {unit.FixedText(head.Answer.DiameterMetres)}, "
                + $"{head.Count} nests; first: {(head.Answer.First ? "yes, run it at reduced speed with people clear" : "no")}");
        Plain.Table(["nest", $"x [{unit}]", $"y [{unit}]", $"z [{unit}]"], nests.Select(n => (IReadOnlyList<string>)
        [
            $"{Whole(n.Column)},{Whole(n.Row)}", unit.Fixed(n.PositionMetres.X), unit.Fixed(n.PositionMetres.Y), unit.Fixed(n.PositionMetres.Z),
        ]));
        Plain.Line(Caution.Short("Stockseat", Caution.Shift));
    }

    private static IEnumerable<string> Metres(Vector v) => [FixedPoint.Text(v.X, 9), FixedPoint.Text(v.Y, 9), FixedPoint.Text(v.Z, 9)];

    private static string Whole(int number) => number.ToString(CultureInfo.InvariantCulture);
}
