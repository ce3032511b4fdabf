using System.Text.RegularExpressions;

namespace Stockseat.EndToEnd.Sources;

/// <summary>
/// Splits C# into words. Comments and texts are left out, but not the code in the braces of an interpolated text, nor the names in a cref.
/// </summary>
internal sealed partial class SourceWords
{
    private readonly string _text;
    private readonly List<Word> _words = [];
    private int _at;
    private int _line = 1;

    private SourceWords(string text) => _text = text;

    public static IReadOnlyList<Word> Of(string text)
    {
        var reader = new SourceWords(text);
        while (reader._at < text.Length)
        {
            reader.Next();
        }

        return reader._words;
    }

    private char Peek(int ahead = 0) => _at + ahead < _text.Length ? _text[_at + ahead] : '\0';

    private void Next()
    {
        var c = Peek();
        if (c == '/' && Peek(1) is '/' or '*')
        {
            Comment();
        }
        else if (c == '#' && IsFirstOfLine())
        {
            Pass(EndOfLine());
        }
        else if (Prefix() is { } quote)
        {
            Literal(_text.AsSpan(_at, quote - _at).Count('$'), _text.AsSpan(_at, quote - _at).Contains('@'), quote);
        }
        else if (c == '\'')
        {
            Pass(_text.IndexOf('\'', _at + (Peek(1) == '\\' ? 3 : 2)) + 1);
        }
        else if (char.IsLetter(c) || c == '_')
        {
            Take(Match(Name()));
        }
        else if (char.IsDigit(c))
        {
            Pass(_at + Match(Number()));
        }
        else if (char.IsWhiteSpace(c))
        {
            Pass(_at + 1);
        }
        else
        {
            Take(1);
        }
    }

    private int Match(Regex pattern) => pattern.Match(_text, _at).Length;

    private void Take(int length)
    {
        _words.Add(new(_text.Substring(_at, length), _line));
        Pass(_at + length);
    }

    /// <summary>Moves on to a position, and counts the lines on the way.</summary>
    private void Pass(int place)
    {
        _line += _text.AsSpan(_at, place - _at).Count('\n');
        _at = place;
    }

    private int EndOfLine() => _text.IndexOf('\n', _at) is var end and >= 0 ? end : _text.Length;

    private bool IsFirstOfLine() => _at == 0 || _text.AsSpan(0, _at).TrimEnd(' ') is [.., '\n'] or [];

    private void Comment()
    {
        if (Peek(1) == '*')
        {
            Pass(_text.IndexOf("*/", _at + 2, StringComparison.Ordinal) + 2);
            return;
        }

        var end = EndOfLine();
        if (Peek(2) == '/')
        {
            foreach (var named in Cref().Matches(_text[_at..end]).Select(m => m.Groups[1].Value))
            {
                _words.AddRange(Of(named).Select(w => w with { Line = _line }).Prepend(new(";", _line)).Append(new(";", _line)));
            }
        }

        Pass(end);
    }

    /// <summary>Where the quote of a text is that begins here, after its prefix characters; null: no text begins here.</summary>
    private int? Prefix()
    {
        var quote = _at;
        while (quote < _text.Length && _text[quote] is '$' or '@')
        {
            quote++;
        }

        return quote < _text.Length && _text[quote] == '"' ? quote : null;
    }

    private void Literal(int signs, bool isVerbatim, int quote)
    {
        var quotes = Run(quote, '"');
        var isRaw = quotes >= 3;
        Pass(quote + (isRaw ? quotes : 1));
        while (_at < _text.Length)
        {
            if (Peek() == '"' && Run(_at, '"') is var run)
            {
                if (isVerbatim && run >= 2)
                {
                    Pass(_at + 2);
                    continue;
                }

                if (!isRaw || run >= quotes)
                {
                    Pass(_at + (isRaw ? run : 1));
                    return;
                }
            }

            Inside(signs, isVerbatim, isRaw);
        }
    }

    private void Inside(int signs, bool isVerbatim, bool isRaw)
    {
        var open = signs > 0 ? Run(_at, '{') : 0;
        if (isRaw ? open >= signs && open > 0 : open % 2 == 1)
        {
            Pass(_at + open);
            Hole(isRaw ? signs : 1);
        }
        else
        {
            Pass(_at + (open > 0 ? open : !isRaw && !isVerbatim && Peek() == '\\' ? 2 : isRaw && Peek() == '"' ? Run(_at, '"') : 1));
        }
    }

    /// <summary>The part in braces is code, up to its format.</summary>
    private void Hole(int signs)
    {
        _words.Add(new("(", _line));
        for (var depth = 0; _at < _text.Length && (depth > 0 || Peek() is not ('}' or ':'));)
        {
            depth += Peek() is '(' or '[' or '{' ? 1 : Peek() is ')' or ']' or '}' ? -1 : 0;
            Next();
        }

        _words.Add(new(")", _line));
        Pass(_text.IndexOf('}', _at) + signs);
    }

    private int Run(int from, char c)
    {
        var end = from;
        while (end < _text.Length && _text[end] == c)
        {
            end++;
        }

        return end - from;
    }

    [GeneratedRegex(@"\G\w+")]
    private static partial Regex Name();

    [GeneratedRegex(@"\G\d(\w|\.\d)*")]
    private static partial Regex Number();

    [GeneratedRegex("cref=\"([^\"]*)\"")]
    private static partial Regex Cref();
}
