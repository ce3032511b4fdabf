using Stockseat.Sheets.Html;

namespace Stockseat.Sheets.Reports;

/// <summary>What several parts of a report are made of.</summary>
internal static class ReportParts
{
    /// <summary>A section with its heading.</summary>
    public static void Section(HtmlWriter html, string id, string heading, Action inside) => html.In("section", "", () =>
    {
        html.Text("h2", heading, "", ("id", id));
        inside();
    }, ("aria-labelledby", id));

    /// <summary>A line of a list of facts.</summary>
    public static void Fact(HtmlWriter html, string what, params IReadOnlyList<(string Text, string? Target)> value)
    {
        html.Text("dt", what);
        html.Line("dd", "", value);
    }

    /// <summary>A line of a list of facts.</summary>
    public static void Fact(HtmlWriter html, string what, string value) => Fact(html, what, (value, null));

    /// <summary>A table's header row, with the widths of the columns by class.</summary>
    public static void Head(HtmlWriter html, params ReadOnlySpan<(string Text, string Style)> columns)
    {
        html.Raw("<colgroup>");
        foreach (var (_, style) in columns)
        {
            html.Empty("col", ("class", style));
        }

        html.Raw("</colgroup>\n<thead>\n<tr>");
        foreach (var (text, style) in columns)
        {
            html.Text("th", text, style, ("scope", "col"));
        }

        html.Raw("</tr>\n</thead>");
    }
}
