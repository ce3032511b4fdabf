using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using System.Text.Json.Nodes;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Cli.Usage;
using Stockseat.Seating.Quantities;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

internal static class LotCommands
{
    public static Command Make() => new ShownCommand("lot", "describes and lists lots of stock", "lot list")
    {
        Describe(), List(),
    };

    private static Command Describe()
    {
        var lot = new Argument<string>("LOT") { Description = "the lot's name" };
        var nominal = new Option<double?>("--nominal")
        {
            HelpName = "LENGTH", Description = "the nominal diameter with its unit; without it the lot has only a name", CustomParser = r => Common.Length(r),
        };
        var tolerance = new Option<string?>("--tolerance") { HelpName = "T", Description = "a tolerance by name, such as h11 or \"EN 10060\"" };
        var plus = new Option<double?>("--plus")
        {
            HelpName = "LENGTH", Description = "how far above the nominal a diameter may be; together with --minus, instead of --tolerance",
            CustomParser = r => FromZero(r),
        };
        var minus = new Option<double?>("--minus")
        {
            HelpName = "LENGTH", Description = "how far below the nominal a diameter may be", CustomParser = r => FromZero(r),
        };
        var outOfRound = new Option<double?>("--out-of-round")
        {
            HelpName = "LENGTH", Description = "how much the diameters of one cross-section may differ", CustomParser = r => Common.Length(r),
        };
        var length = new Option<double?>("--length")
        {
            HelpName = "LENGTH", Description = "the nominal length, together with --length-plus and --length-minus", CustomParser = r => Common.Length(r),
        };
        var lengthPlus = new Option<double?>("--length-plus")
        {
            HelpName = "LENGTH", Description = "how far above the nominal a length may be", CustomParser = r => FromZero(r),
        };
        var lengthMinus = new Option<double?>("--length-minus")
        {
            HelpName = "LENGTH", Description = "how far below the nominal a length may be", CustomParser = r => FromZero(r),
        };
        var (tag, server, json) = (Common.Tag(), Common.Server(), Common.Json());
        var command = new ShownCommand(
            "describe", "describes a lot while the service runs; a later description replaces an earlier one",
            "lot describe A1077 --nominal 92.5mm --tolerance h11")
        {
            lot, nominal, tolerance, plus, minus, outOfRound, length, lengthPlus, lengthMinus, tag, server, json,
        };
        command.SetAction(async (parsed, _) =>
        {
            var request = new DescribeLotRequest
            {
                Lot = parsed.GetValue(lot),
                Tolerance = parsed.GetValue(tolerance) ?? "",
                Tag = parsed.GetValue(tag) ?? "",
                RequestId = ServiceClient.NewRequest(),
            };
            Set(parsed.GetValue(nominal), metres => request.NominalMetres = metres);
            Set(parsed.GetValue(plus), metres => request.PlusMetres = metres);
            Set(parsed.GetValue(minus), metres => request.MinusMetres = metres);
            Set(parsed.GetValue(outOfRound), metres => request.OutOfRoundMetres = metres);
            Set(parsed.GetValue(length), metres => request.LengthMetres = metres);
            Set(parsed.GetValue(lengthPlus), metres => request.LengthPlusMetres = metres);
            Set(parsed.GetValue(lengthMinus), metres => request.LengthMinusMetres = metres);
            return await ServiceClient.Run(server.Of(parsed), async client =>
            {
                var r = await client.Call(token => client.Gauge.DescribeLotAsync(request, cancellationToken: token));
                if (parsed.GetValue(json))
                {
                    Json.Line(Of(new() { Lot_ = request.Lot, Limits = r.Limits, DescribedBy = r.Serial }, r));
                }
                else
                {
                    var unit = DisplayOptions.Of(parsed).Length;
                    Plain.Line($"entry {r.Serial}: lot {request.Lot} {Has(r.Limits, unit)}");
                    if (r.Replaced is { } before)
                    {
                        Plain.Line($"before this, by entry {r.ReplacedSerial}, it was said that it {Has(before, unit)}");
                    }
                }

                return ExitCodes.Done;
            });
        });
        return command;
    }

    private static Command List()
    {
        var (server, json) = (Common.Server(), Common.Json());
        var command = new ShownCommand("list", "lists all known lots with their limits, and where these come from", "lot list")
        { server, json };
        command.SetAction(async (parsed, _) => await ServiceClient.Run(server.Of(parsed), async client =>
        {
            var lots = (await client.Call(token => client.Gauge.ListLotsAsync(new(), cancellationToken: token))).Lots;
            if (parsed.GetValue(json))
            {
                foreach (var lot in lots)
                {
                    Json.Line(Of(lot));
                }

                return ExitCodes.Done;
            }

            var unit = DisplayOptions.Of(parsed).Length;
            string[] columns = ["lot", $"nominal [{unit}]", $"least [{unit}]", $"greatest [{unit}]", $"out-of-round [{unit}]", "tolerance", "from"];
            Plain.Table(columns, lots.Select(l => (IReadOnlyList<string>)
            [
                l.Lot_,
                l.Limits.HasNominalMetres ? unit.Fine(l.Limits.NominalMetres) : "",
                l.Limits.HasLeastMetres ? unit.Fine(l.Limits.LeastMetres) : "",
                l.Limits.HasGreatestMetres ? unit.Fine(l.Limits.GreatestMetres) : "",
                l.Limits.HasOutOfRoundMetres ? unit.Fine(l.Limits.OutOfRoundMetres) : "",
                l.Limits.Tolerance,
                l.HasDescribedBy ? $"entry {l.DescribedBy.ToString(CultureInfo.InvariantCulture)}" : "configuration",
            ]));
            return ExitCodes.Done;
        }));
        return command;
    }

    private static string Has(LotLimits limits, LengthUnit unit) => limits.HasLeastMetres
        ? $"has {unit.Fine(limits.LeastMetres)} to {unit.Fine(limits.GreatestMetres)} {unit}" : "is known by its name only";

    /// <summary>A lot; with the reply that described it, also what was said of it before.</summary>
    private static LotShape Of(Lot lot, DescribeLotResponse? described = null)
    {
        var l = lot.Limits;
        return new(
            lot.Lot_, l.HasNominalMetres ? l.NominalMetres : null, l.HasNominalMetres ? l.LeastMetres : null, l.HasNominalMetres ? l.GreatestMetres : null,
            l.Tolerance.Length > 0 ? l.Tolerance : null, l.HasOutOfRoundMetres ? l.OutOfRoundMetres : null, "m",
            lot.HasDescribedBy ? lot.DescribedBy : null, lot.HasDescribedBy ? "entry" : "configuration",
            described?.Replaced is { } before ? Of(new() { Lot_ = lot.Lot_, Limits = before, DescribedBy = described.ReplacedSerial }) : null);
    }

    /// <summary>A length with its unit that may be 0: many tolerances lie on one side only.</summary>
    private static double FromZero(ArgumentResult result) =>
        Quantity.TryParseLength(result.Tokens[^1].Value, allowSign: false, out var metres) == QuantityFault.None && metres == 0 ? 0 : Common.Length(result);

    private static void Set(double? metres, Action<double> set)
    {
        if (metres is { } value)
        {
            set(value);
        }
    }
}
