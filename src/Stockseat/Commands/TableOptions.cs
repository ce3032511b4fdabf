using System.CommandLine;
using System.CommandLine.Parsing;

namespace Stockseat.Cli.Commands;

/// <summary>The options of a table of offsets.</summary>
internal sealed class TableOptions
{
    public Option<double?> From { get; } = new("--from")
    {
        HelpName = "LENGTH", Description = "the smallest diameter; without it the smallest that gets an answer", CustomParser = r => Common.Length(r),
    };

    public Option<double?> To { get; } = new("--to")
    {
        HelpName = "LENGTH", Description = "the largest diameter; without it the largest that gets an answer", CustomParser = r => Common.Length(r),
    };

    public Option<TableStep?> Step { get; } = new("--step")
    {
        HelpName = "LENGTH",
        Description = "the step from row to row; both ends and the taught diameter get rows too; 1mm unless stated, or 0.05in where the display is in inches; "
            + "a step in inches makes rows in inches",
        CustomParser = TableStep.Parse,
    };

    public Option<string> Purpose { get; } =
        Common.Purpose();

    public Option<int[]> Nest { get; } = Common.Nest();

    public Option<string?> Gauge { get; } = GaugeOption.Make("the diameters; it decides the uncertainty of the rows");

    public Option<bool> Csv { get; } = new("--csv") { Description = "comma-separated values (RFC 4180), in metres" };

    public Option<string?> Card { get; } = new("--card")
    {
        HelpName = "FILE", Description = "writes a card to print and hang up: an .html file, which is overwritten",
        CustomParser = r => Common.Overwritten(r, ".html"),
    };

    public Option<string?> Config { get; } = ServeCommand.Config();

    public ServerOption Server { get; } = Common.Server();

    public Option<bool> Json { get; } = Common.Json();

    public void AddTo(Command command)
    {
        foreach (var option in (Option[])[From, To, Step, Purpose, Nest, Gauge, Csv, Card, Config, Server, Json])
        {
            command.Options.Add(option);
        }
    }

    /// <summary>Which options don't go together; null when they all do.</summary>
    public string? Fault(ParseResult parsed)
    {
        var forms = new[] { parsed.GetValue(Json), parsed.GetValue(Csv), parsed.GetValue(Card) is not null }.Count(form => form);
        return forms > 1 ? "--json, --csv and --card are three forms of one table; name one of them"
            : parsed.GetValue(From) > parsed.GetValue(To) ? "--from is above --to; state the smaller one first"
            : null;
    }
}
