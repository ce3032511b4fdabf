using System.Reflection;
using Serilog;
using Stockseat.Answers.Cautions;
using Stockseat.Audit.Showing;
using Stockseat.Cli.Output;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Verifying;
using Stockseat.Seating.Quantities;
using Stockseat.Service.Configuration;
using Stockseat.Service.Hosting;
using Stockseat.Service.Showing;

namespace Stockseat.Cli.Tour;

/// <summary>The whole job once, on ports and data that are thrown away.</summary>
internal static class GuidedTour
{
    private const string Revision = "pinbed-1/r0003.json";

    private const string Configuration = """
        { "Listen": { "Grpc": "127.0.0.1:0", "Line": "127.0.0.1:0", "Page": "none" }, "Fixtures": "fixtures", "Data": "data", "FirstAdoption": "automatic",
          "Clients": [ { "Name": "tour", "From": [ "127.0.0.0/8" ], "Roles": [ "locate", "measure", "review", "calibrate" ] } ],
          "Lots": { "A1077": { "Nominal": "92.5 mm", "Tolerance": "h11" } } }
        """;

    public static async Task<int> Run(DisplayOverrides stated, Display display)
    {
        var folder = Directory.CreateTempSubdirectory("stockseat-tour-");
        try
        {
            return await Run(folder.FullName, stated, display);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static async Task<int> Run(string folder, DisplayOverrides stated, Display display)
    {
        var unit = display.Length;
        var data = Path.Combine(folder, "data");
        Plain.Line($"This shows Stockseat's whole job once. {Caution.Motion} Read the cautions at the end too.");
        Plain.Line("");
        Plain.Line(
            $"1. The service starts with one fixture: pinbed-1, revision 3. Each nest has two pins of {unit.Text(0.012)} diameter, {unit.Text(0.06)} apart. "
                + $"The "
                + $"origin was taught with stock of {unit.Text(0.08)}.");
        var settings = await Prepare(folder, stated);
        var good = true;
        await using var quiet = new LoggerConfiguration().CreateLogger();
        await using (var service = await RunningService.Start(settings, TimeProvider.System, quiet))
        {
            if (!service.Answers.IsCompleted)
            {
                throw new IOException($"the ledger in {data} can't be written; make room on that disk");
            }

            Plain.Line($"   ready grpc={service.Grpc} line={service.Line}");
            using var line = await LineClient.Connect(service.Line);
            good &= await Ask(line, "2. The gauge station sends a measured diameter, in its own unit.",
                "measured fixture=pinbed-1 diameter=3.638in lot=A1077 tag=18", "ok tag=18 serial=");
            good &= await Ask(
                line, "3. The cell controller asks at program start. bx, by and bz are the shift in base, in metres: how far the grid has to move. "
                    + "first=yes means: run it at reduced speed, with people clear.",
                "locate fixture=pinbed-1 diameter=92.40mm tag=17", "bx=-0.004731 by=0.006308 bz=0.002300");
            var (measured, answer) = await Asked(line, "4. The controller can also ask by measurement, and say which lot it expects.",
                "locate fixture=pinbed-1 lot=A1077 tag=19", "measurement=");
            good &= measured;
            var (serial, shift) = (Value(answer, "serial"), string.Join(' ', ((string[])["bx", "by", "bz"]).Select(n => $"{n}={Value(answer, n)}")));
            good &= await Ask(line, "5. A controller that holds a different number is caught before the robot moves.",
                $"confirm serial={serial} by=0.006038 tag=20", "reason=readback-differs");
            good &= await Ask(line, "6. The controller reads the whole shift back. These are the numbers that were served, so the answer was received.",
                $"confirm serial={serial} {shift} tag=21", $"confirms={serial}");
            good &= await Ask(line, "7. Before the pick it asks whether the answer still holds. After the move it says that it was carried out: only this ends "
                + "first=yes.", $"still serial={serial}", $"still={serial}");
            good &= await Ask(line, null, $"done serial={serial}", $"done={serial}");
            good &= await Ask(line, "8. The unit of a number is never guessed. The first word of a reply decides; a refusal never carries a coordinate.",
                "locate fixture=pinbed-1 diameter=92.4 tag=22", "refused tag=22 class=request reason=unit-missing");
            good &= await Ask(line, "9. Stock that the fixture can't hold is refused.",
                "locate fixture=pinbed-1 diameter=40mm tag=23", "reason=diameter-below-envelope");
        }

        return Check(data, display) && good ? Done() : Failed();
    }

    private static async Task<Settings> Prepare(string folder, DisplayOverrides stated)
    {
        var target = Path.Combine(folder, "fixtures", Revision);
        Directory.CreateDirectory(Path.GetDirectoryName(target)!);
        await using (var source = Assembly.GetExecutingAssembly().GetManifestResourceStream(Revision)!)
        await using (var file = File.Create(target))
        {
            await source.CopyToAsync(file);
        }

        var configuration = Path.Combine(folder, "stockseat.json");
        await File.WriteAllTextAsync(configuration, Configuration);
        var reading = SettingsReader.Read(new(configuration, Display: stated), new Dictionary<string, string>());
        return reading.Settings ?? throw new InvalidOperationException(string.Join("; ", reading.Faults));
    }

    private static string Value(string reply, string key) =>
        reply.Split(' ').FirstOrDefault(w => w.StartsWith(key + "=", StringComparison.Ordinal))?[(key.Length + 1)..] ?? "";

    private static async Task<bool> Ask(LineClient line, string? said, string request, string expected) =>
        (await Asked(line, said, request, expected)).Good;

    private static async Task<(bool Good, string Reply)> Asked(LineClient line, string? said, string request, string expected)
    {
        if (said is not null)
        {
            Plain.Line("");
            Plain.Line(said);
        }

        Plain.Line($"   -> {request}");
        var reply = await line.Ask(request);
        Plain.Line($"   <- {reply}");
        var good = reply.Contains(expected, StringComparison.Ordinal);
        if (!good)
        {
            Plain.Line($"   the reply should contain: {expected}");
        }

        return (good, reply);
    }

    private static bool Check(string data, Display display)
    {
        Plain.Line("");
        Plain.Line("10. The service has stopped. All that it served is in the ledger, and each entry carries the hash of the one before it.");
        using var connection = LedgerFile.OpenReader(data);
        foreach (var row in LedgerQueries.Before(connection, long.MaxValue, 100).Select(r => EntryView.ToRow(r, display)))
        {
            Plain.Line($"   {row[0],3}  {row[2],-16} {row[7]}");
        }

        var verification = LedgerVerifier.Verify(connection, CancellationToken.None);
        Plain.Line($"   verify: {(verification.Whole ? "intact" : "not intact")}, {verification.Entries} entries, head {verification.HeadHash[..16]}");
        return verification.Whole;
    }

    private static int Done()
    {
        Plain.Line("");
        Plain.Line("Everything went as it should. Before you let Stockseat move a robot:");
        foreach (var caution in Caution.Full("Stockseat"))
        {
            Plain.Line($"   {caution}");
        }

        return ExitCodes.Done;
    }

    private static int Failed()
    {
        Console.Error.WriteLine("The tour did not go as it should; the step above shows where.");
        return ExitCodes.Failed;
    }
}
