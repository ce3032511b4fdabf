namespace Stockseat.Cli.Output.Shapes;

/// <summary>What a check found: good, advice, wrong or unchecked.</summary>
internal sealed record ExaminedShape(string Result, string About, string Text);
