using System.Globalization;
using Spectre.Console;

namespace Stockseat.Cli.Output;

/// <summary>Prints for people; text of others can't move the cursor or reverse a line.</summary>
internal static class Plain
{
    private const int Unlimited = 1000;

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
        // On a terminal only the last column wraps; in a pipe none does.
        var table = new Table().Border(TableBorder.Minimal);
        for (var i = 0; i < columns.Count; i++)
        {
            var column = new TableColumn(Markup.Escape(columns[i]));
            table.AddColumn(i < columns.Count - 1 ? column.NoWrap() : column);
        }

        foreach (var row in rows)
        {
            table.AddRow([.. row.Select(cell => new Text(Text(cell)))]);
        }

        var console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(Console.Out), Ansi = AnsiSupport.No });
        if (Console.IsOutputRedirected)
        {
            console.Profile.Width = Unlimited;
        }

        console.Write(table);
    }
}
