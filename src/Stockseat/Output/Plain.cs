using System.Globalization;
using Spectre.Console;

namespace Stockseat.Cli.Output;

/// <summary>Prints for people; text of others can't move the cursor or reverse a line.</summary>
internal static class Plain
{
    /// <summary>Without control characters and without marks that change the direction of writing.</summary>
    public static string Text(string text) => string.Create(text.Length, text, (span, source) =>
    {
        for (var i = 0; i < span.Length; i++)
        {
            var c = source[i];
            span[i] = char.IsControl(c) || char.GetUnicodeCategory(c) is UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator
                ? '?'
                : c;
        }
    });

    public static void Line(string text) => Console.Out.WriteLine(Text(text));

    public static void Table(IReadOnlyList<string> columns, IEnumerable<IReadOnlyList<string>> rows)
    {
        var table = new Table().Border(TableBorder.Minimal);
        foreach (var column in columns)
        {
            table.AddColumn(new TableColumn(Markup.Escape(column)).NoWrap());
        }

        foreach (var row in rows)
        {
            table.AddRow([.. row.Select(cell => new Text(Text(cell)))]);
        }

        var console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(Console.Out), Ansi = AnsiSupport.No });
        console.Profile.Width = Console.IsOutputRedirected ? 1000 : Math.Max(200, console.Profile.Width);
        console.Write(table);
    }
}
