using Spectre.Console;
using Stockseat.Sheets.Html;

namespace Stockseat.Cli.Output;

/// <summary>Prints for people; text from others can't move the cursor or reverse a line.</summary>
internal static class Plain
{
    /// <summary>The width that the last column needs on a terminal to be readable.</summary>
    private const int RoomForLast = 40;

    /// <summary>Whether people look at stdout, and not a program or a file.</summary>
    public static bool OnTerminal => !Console.IsOutputRedirected;

    /// <summary>Without control characters and without marks that change the direction of writing.</summary>
    public static string Text(string text) => PlainText.Clean(text);

    public static void Line(string text) => Console.Out.WriteLine(Text(text));

    /// <summary>A table: with lines on a terminal that is wide enough, otherwise in plain columns. Only the last column may be long.</summary>
    public static void Table(IReadOnlyList<string> columns, IEnumerable<IReadOnlyList<string>> rows)
    {
        var cells = rows.Select(row => (IReadOnlyList<string>)[.. row.Select(Text)]).ToList();
        var widths = columns.Select((column, i) => cells.Select(row => row[i].Length).Append(column.Length).Max()).ToArray();
        if (!OnTerminal || widths[..^1].Sum() + (3 * widths.Length) + Math.Min(widths[^1], RoomForLast) > AnsiConsole.Profile.Width)
        {
            Columns(columns, cells, widths);
        }
        else
        {
            Ruled(columns, cells);
        }
    }

    private static void Columns(IReadOnlyList<string> columns, List<IReadOnlyList<string>> rows, int[] widths)
    {
        foreach (var row in rows.Prepend(columns))
        {
            var padded = row.Select((cell, i) => i < row.Count - 1 ? cell.PadRight(widths[i]) : cell);
            Console.Out.WriteLine(string.Join("  ", padded).TrimEnd());
        }
    }

    private static void Ruled(IReadOnlyList<string> columns, List<IReadOnlyList<string>> rows)
    {
        var table = new Table().Border(TableBorder.Minimal);
        for (var i = 0; i < columns.Count; i++)
        {
            var column = new TableColumn(Markup.Escape(columns[i]));
            table.AddColumn(i < columns.Count - 1 ? column.NoWrap() : column);
        }

        rows.ForEach(row => table.AddRow([.. row.Select(cell => new Text(cell))]));
        AnsiConsole.Write(table);
    }
}
