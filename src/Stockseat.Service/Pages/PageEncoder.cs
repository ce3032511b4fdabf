using System.Text;
using System.Text.Encodings.Web;
using Stockseat.Sheets.Html;

namespace Stockseat.Service.Pages;

/// <summary>Writes texts into pages: markup is escaped, and what could hide or turn text around is replaced, as in reports.</summary>
public sealed class PageEncoder : HtmlEncoder
{
    private PageEncoder()
    {
    }

    /// <summary>The encoder of all pages.</summary>
    public static PageEncoder Instance { get; } = new();

    /// <inheritdoc/>
    public override int MaxOutputCharactersPerInputCharacter => Default.MaxOutputCharactersPerInputCharacter;

    /// <inheritdoc/>
    public override bool WillEncode(int unicodeScalar) => !IsPlain(unicodeScalar) || Default.WillEncode(unicodeScalar);

    /// <inheritdoc/>
    public override unsafe int FindFirstCharacterToEncode(char* text, int textLength)
    {
        for (var i = 0; i < textLength; i++)
        {
            if (!char.IsAscii(text[i]) || WillEncode(text[i]))
            {
                return i;
            }
        }

        return -1;
    }

    /// <inheritdoc/>
    public override unsafe bool TryEncodeUnicodeScalar(int unicodeScalar, char* buffer, int bufferLength, out int numberOfCharactersWritten)
    {
        if (IsPlain(unicodeScalar))
        {
            return Default.TryEncodeUnicodeScalar(unicodeScalar, buffer, bufferLength, out numberOfCharactersWritten);
        }

        numberOfCharactersWritten = bufferLength > 0 ? 1 : 0;
        if (bufferLength > 0)
        {
            buffer[0] = '?';
        }

        return bufferLength > 0;
    }

    /// <summary>Whether a character may be shown at all.</summary>
    private static bool IsPlain(int scalar)
    {
        if (scalar is >= ' ' and <= '~')
        {
            return true;
        }

        var text = new Rune(scalar).ToString();
        return PlainText.Clean(text) == text;
    }
}
