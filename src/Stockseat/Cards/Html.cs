using System.Net;
using System.Text;
using Stockseat.Cli.Output;

namespace Stockseat.Cli.Cards;

/// <summary>Writes a page whose texts are escaped; it is well-formed XML too.</summary>
internal sealed class Html
{
    private readonly StringBuilder _text = new();

    /// <summary>Without control characters, marks that turn the direction of writing, and markup.</summary>
    public static string Escape(string text) => WebUtility.HtmlEncode(Plain.Text(text));

    /// <summary>Something of a name and a class around what is inside.</summary>
    public void In(string element, string style, Action inside)
    {
        Begin(element, style);
        _text.Append('\n');
        inside();
        _text.Append($"</{element}>\n");
    }

    /// <summary>A text; it is escaped.</summary>
    public void Text(string element, string text, string style = "")
    {
        Begin(element, style);
        _text.Append(Escape(text)).Append($"</{element}>\n");
    }

    /// <summary>A table's cell over several columns.</summary>
    public void Wide(string text, int columns, string style = "")
    {
        _text.Append($"<th colspan=\"{columns}\"{(style.Length > 0 ? $" class=\"{style}\"" : "")}>").Append(Escape(text)).Append("</th>\n");
    }

    /// <summary>Markup of our own.</summary>
    public void Raw(string markup) => _text.Append(markup).Append('\n');

    public override string ToString() => _text.ToString();

    private void Begin(string element, string style) => _text.Append(style.Length > 0 ? $"<{element} class=\"{style}\">" : $"<{element}>");
}
