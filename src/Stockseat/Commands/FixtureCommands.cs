using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using System.Text.Json.Nodes;
using Stockseat.Answers.State;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Cli.Usage;
using Stockseat.Fixtures.Revisions;
using Stockseat.Sheets.Cards;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

internal static class FixtureCommands
{
    public static Command Make() => new ShownCommand(
        "fixture", "checks, draws, calibrates, adopts, holds and rechecks fixtures", "fixture list", "fixture check pinbed-1 --config config/stockseat.json")
    {
        List(), Show(), CalibrateCommand.Make(), CheckCommand.Make(), TableCommand.Make(), GridCommand.Make(), DrawCommand.Make(), Adopt(), HoldCommands.Hold(),
        HoldCommands.Release(),
        RecheckCommand.Make(),
    };

    public static int Number(ArgumentResult result) => (int)Common.Whole(result, "number of a revision", RevisionReader.MaxNumber);

    private static Command List()
    {
        var (server, json) = (Common.Server(), Common.Json());
        var command = new ShownCommand("list", "lists all fixtures: what is in force, whether they answer, and if not, why", "fixture list")
        { server, json };
        command.SetAction(async (parsed, _) => await ServiceClient.Run(server.Of(parsed), async client =>
        {
            var response = await client.Call(token => client.Fixtures.ListFixturesAsync(new(), cancellationToken: token));
            if (parsed.GetValue(json))
            {
                foreach (var fixture in response.Fixtures)
                {
                    Json.Line(Of(fixture) with { Ports = ReadingPortOutput.Of(response.Ports.Where(p => p.Fixture == fixture.Fixture_)) });
                }

                foreach (var lone in response.Ports.Where(p => response.Fixtures.All(f => f.Fixture_ != p.Fixture)).GroupBy(p => p.Fixture))
                {
                    Json.Line(new FixtureShape(lone.Key, false) { Refused = "fixture-unknown", Ports = ReadingPortOutput.Of(lone) });
                }

                return ExitCodes.Done;
            }

            var unit = DisplayOptions.Of(parsed).Length;
            string[] columns = ["fixture", "in force", "digest", "answers", "waiting", $"measured [{unit}]", "lot"];
            Plain.Table(columns, response.Fixtures.Select(f => (IReadOnlyList<string>)
            [
                f.Fixture_,
                f.HasRevision ? f.Revision.ToString(CultureInfo.InvariantCulture) : "none",
                f.Digest.Length > 12 ? f.Digest[..12] : "",
                f.Refused.Length == 0 ? "yes" : $"no: {f.Refused}",
                string.Join(", ", f.Waiting),
                f.HasMeasuredMetres ? unit.Fixed(f.MeasuredMetres) : "",
                f.Lot,
            ]));
            foreach (var text in response.Fixtures.Select(f => f.RefusedText).Where(t => t.Length > 0).Concat(response.Fixtures.SelectMany(f => f.Faults)))
            {
                Plain.Line(text);
            }

            foreach (var missed in response.Fixtures.Select(f => f.Missed).OfType<Recheck>().Where(m => !m.RefusesAsks))
            {
                Plain.Line(
                    $"{missed.Fixture}: recheck {missed.Serial} missed, by {RecheckView.Told(missed, unit)}; asks are still answered; calibrate the fixture "
                        + $"and "
                        + "adopt the new revision");
            }

            foreach (var f in response.Fixtures.Where(f => f.Load is not null))
            {
                var next = f.Load.Next is { } n ? $", next {n.Column},{n.Row}" : "";
                var open = f.Load.HasUnfinished
                    ? $"; answer {f.Load.Unfinished} at nest {f.Load.UnfinishedNest.Column},{f.Load.UnfinishedNest.Row} is unfinished: say done or dropped"
                        : "";
                Plain.Line(
                    $"{f.Fixture_}: load {f.Load.Serial}{(f.Load.Lot.Length > 0 ? $" of lot {f.Load.Lot}" : "")}, {f.Load.Left} of {f.Load.Count} nests left"
                    + next + open);
            }

            foreach (var f in response.Fixtures.Where(f => f.Unproven.Count > 0))
            {
                Plain.Line($"{f.Fixture_}: revision {f.Revision} is not proven{(f.ProvingRequired ? ", so every answer stays first" : "")}: "
                    + string.Join("; ", f.Lacking.Count > 0 ? f.Lacking.Select(l => Proof.Said(Lacks.Of(l), unit)) : f.Unproven));
            }

            ReadingPortOutput.Print(response.Ports);
            Plain.Line($"ledger {(response.LedgerWritable ? "writable" : "unavailable")}, entry {response.Serial}, {Sealed(response)}");
            foreach (var line in CertificateText.Of(response.Certificate).Concat(PlantText.Of(response.Plant)))
            {
                Plain.Line(line);
            }

            if (response.TurnedAway.Count > 0)
            {
                Plain.Line(
                    "turned away since the start: "
                        + $"{string.Join(", ", response.TurnedAway.OrderBy(p => p.Key, StringComparer.Ordinal).Select(p => $"{p.Key} {p.Value}"))}");
            }

            if (response.LogDropped > 0)
            {
                Plain.Line($"log lines dropped since the start: {response.LogDropped}; nothing read the log fast enough");
            }

            return ExitCodes.Done;
        }));
        return command;
    }

    private static string Sealed(ListFixturesResponse r) => r.SealKey.Length == 0
        ? "not sealed"
        : $"sealed by key {r.SealKey[..Math.Min(12, r.SealKey.Length)]}, {r.Unsealed} {(r.Unsealed == 1 ? "entry" : "entries")} unsealed";

    private static Command Show()
    {
        var fixture = new Argument<string>("FIXTURE") { Description = "the fixture" };
        var number = new Argument<int?>("REVISION")
        {
            Description = "the revision; without it the one in force", Arity = ArgumentArity.ZeroOrOne, CustomParser = r => Number(r),
        };
        var (server, json) = (Common.Server(), Common.Json());
        var command = new ShownCommand("show", "prints the values of a revision in SI units", "fixture show pinbed-1 3")
        { fixture, number, server, json };
        command.SetAction(async (parsed, _) => await ServiceClient.Run(server.Of(parsed), async client =>
        {
            var request = new GetRevisionRequest { Fixture = parsed.GetValue(fixture) };
            if (parsed.GetValue(number) is { } revision)
            {
                request.Revision = revision;
            }

            var r = await client.Call(token => client.Fixtures.GetRevisionAsync(request, cancellationToken: token));
            if (parsed.GetValue(json))
            {
                Json.Line(new RevisionShape(r.Fixture, r.Revision, r.Digest, r.InForce, JsonNode.Parse(r.ContentJson)));
                return ExitCodes.Done;
            }

            Plain.Line($"{r.Fixture} revision {r.Revision}, {(r.InForce ? "in force" : "not in force")}, digest {r.Digest}");
            Plain.Table(["key", "value (m, rad, kg)"], Rows("", JsonNode.Parse(r.ContentJson)));
            return ExitCodes.Done;
        }));
        return command;
    }

    private static Command Adopt()
    {
        var fixture = new Argument<string>("FIXTURE") { Description = "the fixture" };
        var number = new Argument<int>("REVISION") { Description = "the revision to put into force", CustomParser = Number };
        var digest = new Option<string?>("--digest")
        {
            HelpName = "PREFIX",
            Description = "adopts only a file with this digest, as fixture check prints it: its first 12 characters or more",
            CustomParser = Digest,
        };
        var by = new Option<string>("--by") { HelpName = "WHO", Description = "who adopts it", Required = true };
        var why = new Option<string>("--why") { HelpName = "WHY", Description = "why, in a few words", Required = true };
        var expect = new Option<int?>("--expect")
        {
            HelpName = "REVISION", Description = "adopts only while this revision is in force; 0: while none is", CustomParser = r => Expected(r),
        };
        var yes = new Option<bool>("--yes") { Description = "does not ask; without a terminal it never asks" };
        var (server, json) = (Common.Server(), Common.Json());
        var command = new ShownCommand(
            "adopt", "puts a revision into force while the service runs",
            "fixture adopt pinbed-1 4 --by \"day setter\" --why \"bed moved 40 mm\"")
        { fixture, number, digest, expect, yes, by, why, server, json };
        command.SetAction(async (parsed, _) => await ServiceClient.Run(server.Of(parsed), async client =>
        {
            var request = new AdoptRequest
            {
                Fixture = parsed.GetValue(fixture),
                Revision = parsed.GetValue(number),
                By = parsed.GetValue(by),
                Why = parsed.GetValue(why),
                RequestId = ServiceClient.NewRequest(),
            };
            if (parsed.GetValue(digest) is { } prefix)
            {
                request.Digest = prefix;
            }

            if (parsed.GetValue(expect) is { } inForce)
            {
                request.Expect = inForce;
            }

            if (!parsed.GetValue(yes) && !parsed.GetValue(json) && !await AdoptQuestion.IsYes(client, request, DisplayOptions.Of(parsed).Length))
            {
                Console.Error.WriteLine("nothing was adopted");
                return ExitCodes.Refused;
            }

            var r = await client.Call(token => client.Fixtures.AdoptAsync(request, cancellationToken: token));
            if (parsed.GetValue(json))
            {
                Json.Line(new DoneShape(r.Serial) { Fixture = r.Fixture, Revision = r.Revision, Digest = r.Digest });
            }
            else
            {
                Plain.Line($"entry {r.Serial}: {r.Fixture} revision {r.Revision} is in force, digest {r.Digest}");
                Plain.Line(
                    "Its answers are marked first until one is carried out (done): run them at reduced speed, with people clear. Printed cards, drawings and "
                        + "tables of older revisions are void.");
            }

            return ExitCodes.Done;
        }));
        return command;
    }

    private static int? Expected(ArgumentResult result)
    {
        if (int.TryParse(result.Tokens[^1].Value, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number <= RevisionReader.MaxNumber)
        {
            return number;
        }

        result.AddError($"'{result.Tokens[^1].Value}' is not the number of a revision; 0 to {RevisionReader.MaxNumber} was expected");
        return null;
    }

    private static string Digest(ArgumentResult result)
    {
        if (!DigestPrefix.TryRead(result.Tokens[^1].Value, out var prefix))
        {
            result.AddError($"'{result.Tokens[^1].Value}' is not the beginning of a digest; {DigestPrefix.Expected}, were expected");
        }

        return prefix;
    }

    private static IEnumerable<IReadOnlyList<string>> Rows(string path, JsonNode? node) => node switch
    {
        JsonObject o => o.SelectMany(p => Rows(path.Length == 0 ? p.Key : $"{path}.{p.Key}", p.Value)),
        JsonArray a => a.SelectMany((item, i) => Rows($"{path}[{i}]", item)),
        null => [[path, ""]],
        _ => [[path, node.ToString()]],
    };

    private static FixtureShape Of(Fixture f) => new(f.Fixture_, f.Refused.Length == 0)
    {
        Revision = f.HasRevision ? f.Revision : null,
        Digest = f.HasRevision ? f.Digest : null,
        Refused = f.Refused.Length > 0 ? f.Refused : null,
        Text = f.Refused.Length > 0 ? f.RefusedText : null,
        Holds = f.Holds.Count > 0 ? f.Holds.Select(h => new HoldShape(h.By, h.Why, h.Serial, h.At)) : null,
        Missed = f.Missed is { } missed ? RecheckView.Of(missed) : null,
        Unproven = f.Unproven.Count > 0 ? f.Unproven : null,
        Waiting = f.Waiting,
        Faults = f.Faults,
        Measurement = f.HasMeasurement ? f.Measurement : null,
        Measured = f.HasMeasurement ? f.MeasuredMetres : null,
        Age = f.HasMeasuredAgeSeconds ? f.MeasuredAgeSeconds : null,
        Lot = f.Lot.Length > 0 ? f.Lot : null,
        Load = f.Load is { } load ? new(
            load.Serial, load.Lot.Length > 0 ? load.Lot : null, load.Count, load.Left, Nest(load.Next), load.HasUnfinished ? load.Unfinished : null,
            Nest(load.UnfinishedNest)) : null,
    };

    private static int[]? Nest(Nest? nest) => nest is null ? null : [nest.Column, nest.Row];
}
