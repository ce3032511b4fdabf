using System.Net;
using System.Text;

namespace Stockseat.Sheets.Html;

/// <summary>Writes a page whose texts are escaped; it is well-formed XML too.</summary>
public sealed class HtmlWriter
{
    private readonly StringBuilder _text = new();

    /// <summary>The text without control characters, without marks that change the direction of writing, and with markup escaped.</summary>
    /// <param name="text">The text.</param>
    public static string Escape(string text) => WebUtility.HtmlEncode(PlainText.Clean(text));

    /// <summary>An element around what is inside.</summary>
    /// <param name="element">Its name.</param>
    /// <param name="style">Its class; "" for none.</param>
    /// <param name="inside">Writes what is inside.</param>
    /// <param name="attributes">Its other attributes; their values are escaped.</param>
    public void In(string element, string style, Action inside, params ReadOnlySpan<(string Name, string Value)> attributes)
    {
        Begin(element, style, attributes);
        _text.Append('\n');
        inside();
        _text.Append($"</{element}>\n");
    }

    /// <summary>A text; it is escaped.</summary>
    /// <param name="element">What it is in.</param>
    /// <param name="text">The text.</param>
    /// <param name="style">Its class; "" for none.</param>
    /// <param name="attributes">Its other attributes; their values are escaped.</param>
    public void Text(string element, string text, string style = "", params ReadOnlySpan<(string Name, string Value)> attributes)
    {
        Begin(element, style, attributes);
        _text.Append(Escape(text)).Append($"</{element}>\n");
    }

    /// <summary>Several pieces in one line: texts and links.</summary>
    /// <param name="element">What they are in.</param>
    /// <param name="style">Its class; "" for none.</param>
    /// <param name="pieces">The pieces; those with a target are links within the page.</param>
    public void Line(string element, string style, IEnumerable<(string Text, string? Target)> pieces)
    {
        Begin(element, style, []);
        foreach (var (text, target) in pieces)
        {
            _text.Append(target is null ? Escape(text) : $"<a href=\"#{Escape(target)}\">{Escape(text)}</a>");
        }

        _text.Append($"</{element}>\n");
    }

    /// <summary>An empty element.</summary>
    /// <param name="element">Its name.</param>
    /// <param name="attributes">Its attributes; their values are escaped.</param>
    public void Empty(string element, params ReadOnlySpan<(string Name, string Value)> attributes)
    {
        Begin(element, "", attributes);
        _text.Insert(_text.Length - 1, '/').Append('\n');
    }

    /// <summary>A table's cell over several columns.</summary>
    /// <param name="text">Its text.</param>
    /// <param name="columns">How many columns.</param>
    /// <param name="style">Its class; "" for none.</param>
    public void Wide(string text, int columns, string style = "")
    {
        _text.Append($"<th colspan=\"{columns}\"{(style.Length > 0 ? $" class=\"{style}\"" : "")}>").Append(Escape(text)).Append("</th>\n");
    }

    /// <summary>Our own markup, as it is.</summary>
    /// <param name="markup">The markup.</param>
    public void Raw(string markup) => _text.Append(markup).Append('\n');

    /// <summary>The page so far.</summary>
    public override string ToString() => _text.ToString();

    private void Begin(string element, string style, ReadOnlySpan<(string Name, string Value)> attributes)
    {
        _text.Append(style.Length > 0 ? $"<{element} class=\"{style}\"" : $"<{element}");
        foreach (var (name, value) in attributes)
        {
            _text.Append($" {name}=\"{Escape(value)}\"");
        }

        _text.Append('>');
    }
}
