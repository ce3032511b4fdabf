using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>People read a caution wherever they read numbers that move a robot; programs get none between their data.</summary>
public abstract class CautionTests(Build build) : OnBothBuilds(build)
{
    private const string Local = "Local codes and licensed practice come first.";

    private const string Shift = "Add the shift to the taught origin, never to an origin that was already shifted.";

    public sealed class Ordinary() : CautionTests(Build.Ordinary);

    public sealed class Native() : CautionTests(Build.Native);

    [Fact]
    public async Task Numbers_for_people_come_with_a_caution_and_those_for_programs_without()
    {
        using var cell = new Cell();
        await using var service = await Program.Serve(cell);
        string[] locate = ["locate", "pinbed-1", "--diameter", "92.4mm"];
        string[] table = ["fixture", "table", "pinbed-1"];
        string[] review = ["ledger", "review", "--at", "1"];
        string[] recheck = ["fixture", "recheck", "pinbed-1", "--master", "80mm", "--found", "412.30mm,-205mm,118mm", "--by", "day setter"];
        string[] plan = ["nest", "plan", "--from", "60mm", "--to", "100mm", "--vee", "90deg"];

        foreach (var (command, shift) in new[] { (locate, true), (table, true), (review, true), (recheck, false) })
        {
            var text = (await service.Ask(command)).Exits(0).Out;
            Assert.Contains(Local, text, StringComparison.Ordinal);
            Assert.Equal(shift, text.Contains(Shift, StringComparison.Ordinal));
            NoCaution(await service.Ask([.. command, "--json"]));
        }

        Assert.Contains(Local, (await Program.Run(plan)).Exits(0).Out, StringComparison.Ordinal);
        NoCaution(await Program.Run([.. plan, "--json"]));
        NoCaution(await service.Ask([.. table, "--csv"]));
        NoCaution(await service.Ask([.. review, "--csv"]));
    }

    private static void NoCaution(Run run) => Assert.DoesNotContain("injure", run.Exits(0).Out, StringComparison.Ordinal);
}
