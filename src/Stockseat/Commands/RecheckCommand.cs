using System.CommandLine;
using System.CommandLine.Parsing;
using Stockseat.Answers.Advising;
using Stockseat.Audit.Showing;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Usage;
using Stockseat.Seating.Quantities;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

/// <summary>Records a master that was seated and found again; without --found it shows the trend of the recorded rechecks.</summary>
internal static class RecheckCommand
{
    /// <summary>The most rechecks that one call returns.</summary>
    private const int Page = 1000;

    private const int UsualLast = 100;

    private const int MostLast = 10_000;

    public static Command Make()
    {
        var fixture = new Argument<string>("FIXTURE") { Description = "the fixture" };
        var master = new Option<double?>("--master")
        {
            HelpName = "LENGTH", Description = "the diameter of the master that was seated", CustomParser = r => Common.Length(r),
        };
        var found = new Option<double[]>("--found")
        {
            HelpName = "X,Y,Z",
            Description = "where the robot found the master's centre, in base, each with its unit; without it the trend is shown", CustomParser = Found,
        };
        var nest = Common.Nest();
        var within = new Option<double?>("--within")
        {
            HelpName = "LENGTH", Description = "the limit of error of the master's diameter; without it the revision's askedDiameter is used",
            CustomParser = r => Common.Length(r),
        };
        var by = new Option<string?>("--by") { HelpName = "WHO", Description = "who seated the master" };
        var note = new Option<string?>("--note") { HelpName = "TEXT", Description = "what else people should know" };
        var last = new Option<int?>("--last")
        {
            HelpName = "N", Description = $"how many of the newest rechecks the trend shows, {UsualLast} unless stated; not together with --found",
            CustomParser = r => (int)Common.Whole(r, "number of rechecks", MostLast),
        };
        var picture = new Option<string?>("--picture")
        {
            HelpName = "FILE", Description = "draws the trend into an .svg file, which is overwritten; without --found",
            CustomParser = r => Common.Overwritten(r, ".svg"),
        };
        var (server, json) = (Common.Server(), Common.Json());
        var command = new ShownCommand(
            "recheck", "compares where a master was found with where it should be, and records it; without --found it shows the trend",
            "fixture recheck pinbed-1 --master 80mm --found 412.31mm,-204.62mm,118.02mm --by \"day setter\"",
            "fixture recheck pinbed-1 --picture trend.svg")
        {
            fixture, master, found, nest, within, by, note, last, picture, server, json,
        };
        command.Validators.Add(result => Belong(result, found, [master, by], [nest, within, note], [last, picture]));
        command.SetAction(async (parsed, _) => await ServiceClient.Run(server.Of(parsed), client =>
        {
            if (parsed.GetValue(found) is not [var x, var y, var z])
            {
                return Trend(
                    client, parsed.GetValue(fixture)!, parsed.GetValue(last) ?? UsualLast, parsed.GetValue(picture), parsed.GetValue(json),
                    DisplayOptions.Of(parsed));
            }

            int[] at = parsed.GetValue(nest) is [var column, var row] ? [column, row] : [0, 0];
            var request = new RecheckRequest
            {
                Fixture = parsed.GetValue(fixture),
                By = parsed.GetValue(by),
                Note = parsed.GetValue(note) ?? "",
                MasterMetres = parsed.GetValue(master)!.Value,
                Column = at[0],
                Row = at[1],
                FoundMetres = new() { X = x, Y = y, Z = z },
                RequestId = ServiceClient.NewRequest(),
            };
            if (parsed.GetValue(within) is { } limit)
            {
                request.MasterWithinMetres = limit;
            }

            return Record(client, request, parsed.GetValue(json), DisplayOptions.Of(parsed).Length);
        }));
        return command;
    }

    private static async Task<int> Record(ServiceClient client, RecheckRequest request, bool json, LengthUnit unit)
    {
        var recheck = (await client.Call(token => client.Fixtures.RecheckAsync(request, cancellationToken: token))).Recheck;
        if (json)
        {
            Json.Line(RecheckView.Of(recheck));
        }
        else
        {
            RecheckView.Print(recheck, unit);
        }

        return recheck.Verdict == RecheckVerdict.Missed ? ExitCodes.Refused : ExitCodes.Done;
    }

    private static async Task<int> Trend(ServiceClient client, string fixture, int count, string? picture, bool json, Display display)
    {
        var rechecks = await Newest(client, fixture, count);
        var sections = TrendSection.Of([.. rechecks.Select(r => (r.Revision, r.Miss.AlongMetres, r.Miss.AcrossMetres))]);
        if (json)
        {
            foreach (var (recheck, section) in sections.SelectMany(s => rechecks.Skip(s.First).Take(s.Count).Select(r => (r, s))))
            {
                Json.Line(RecheckView.Of(recheck) with { BeyondControlLimits = RecheckView.Beyond(recheck, section) });
            }
        }
        else if (rechecks.Count > 0)
        {
            RecheckView.Print(rechecks, sections, display);
        }
        else
        {
            Plain.Line($"{fixture} has not been rechecked yet: seat a master, find it with the robot, and state --master, --found and --by");
        }

        if (picture is null)
        {
            return ExitCodes.Done;
        }

        if (rechecks.Count == 0)
        {
            Console.Error.WriteLine(Plain.Text($"{picture} is not drawn: {fixture} has not been rechecked yet"));
            return ExitCodes.Failed;
        }

        return PageFile.Write(picture, RecheckPicture.Draw(rechecks, display));
    }

    /// <summary>The newest rechecks, this many of them, oldest first.</summary>
    private static async Task<List<Recheck>> Newest(ServiceClient client, string fixture, int count)
    {
        var (rechecks, token) = (new List<Recheck>(), "");
        do
        {
            var request = new ListRechecksRequest { Fixture = fixture, PageSize = Math.Min(Page, count - rechecks.Count), PageToken = token };
            var response = await client.Call(t => client.Fixtures.ListRechecksAsync(request, cancellationToken: t));
            rechecks.InsertRange(0, response.Rechecks);
            token = response.NextPageToken;
        }
        while (token.Length > 0 && rechecks.Count < count);
        return rechecks;
    }

    /// <summary>A recheck and its trend take different options.</summary>
    private static void Belong(CommandResult result, Option found, Option[] needed, Option[] besides, Option[] trend)
    {
        bool Stated(Option option) => result.GetResult(option) is { Implicit: false };
        var recording = Stated(found);
        foreach (var option in recording ? needed.Where(o => !Stated(o)) : needed.Concat(besides).Where(Stated))
        {
            result.AddError(
                recording ? $"{option.Name} is missing: a recheck needs --master, --found and --by"
                    : $"{option.Name} is for a recheck, which needs --found; without --found the trend is shown");
        }

        foreach (var option in trend.Where(o => recording && Stated(o)))
        {
            result.AddError($"{option.Name} is for the trend, which is shown without --found");
        }
    }

    private static double[] Found(ArgumentResult result)
    {
        var text = result.Tokens[^1].Value;
        var parts = text.Split(',');
        var metres = new double[parts.Length];
        for (var i = 0; i < parts.Length; i++)
        {
            if (Quantity.TryParseLength(parts[i].AsSpan().Trim(), allowSign: true, out metres[i]) != QuantityFault.None)
            {
                result.AddError($"'{parts[i]}' in '{text}' is not a length with its unit, for example -205.10mm; units are mm, m, um and in");
            }
        }

        if (parts.Length != 3)
        {
            result.AddError($"'{text}' has {parts.Length} parts; x,y,z, each with its unit, was expected, for example 412.30mm,-205.00mm,118.00mm");
        }

        return metres;
    }
}
