namespace Stockseat.EndToEnd.Sources;

/// <summary>A source file: its namespace, its using directives, the types that it declares, and the names in it.</summary>
internal sealed class SourceFile
{
    private static readonly string[] Kinds = ["class", "struct", "interface", "enum", "record"];

    private readonly IReadOnlyList<Word> _words;

    /// <param name="path">The path, from the repository's root.</param>
    /// <param name="folder">The folder in the project; empty: the project's own.</param>
    /// <param name="text">The whole text.</param>
    public SourceFile(string path, string folder, string text)
    {
        (Path, Folder, _words) = (path, folder, SourceWords.Of(text));
        var at = 0;
        for (; at < _words.Count && _words[at].Text is "using" or "global" or "[" or ";" && !IsStatement(at); at++)
        {
            at = _words[at].Text == "using" ? Using(at) : _words[at].Text == "[" ? EndOf("]", at) : at;
        }

        if (at < _words.Count && _words[at].Text == "namespace")
        {
            var end = EndOf(";", at);
            (Namespace, at) = (string.Concat(_words.Skip(at + 1).Take(end - at - 1).Select(w => w.Text)), end);
        }

        Types = [.. Declared(at)];
        Names = [.. Chains(at)];
    }

    public string Path { get; }

    public string Folder { get; }

    /// <summary>Empty where the file has none.</summary>
    public string Namespace { get; } = "";

    /// <summary>The namespaces that the file uses, with the lines of the using directives.</summary>
    public List<(string Namespace, int Line)> Usings { get; } = [];

    /// <summary>What the file's aliases mean.</summary>
    public Dictionary<string, string[]> Aliases { get; } = new(StringComparer.Ordinal);

    /// <summary>The types that are not nested in another type.</summary>
    public IReadOnlyList<string> Types { get; }

    /// <summary>The names in the file, each with what follows it after points.</summary>
    public IReadOnlyList<(string[] Parts, int Line)> Names { get; }

    private int EndOf(string mark, int at)
    {
        while (at < _words.Count && _words[at].Text != mark)
        {
            at++;
        }

        return at;
    }

    /// <summary>A <c>using</c> that disposes, in a file of statements.</summary>
    private bool IsStatement(int at) =>
        _words[at].Text == "using" && _words[at + 1].Text is "var" or "(" || (_words[at].Text == "global" && _words[at + 1].Text != "using");

    private int Using(int at)
    {
        var (line, end) = (_words[at].Line, EndOf(";", at));
        var words = _words.Skip(at + 1).Take(end - at - 1).Select(w => w.Text).ToList();
        if (words.IndexOf("=") is var equals and > 0)
        {
            Aliases[words[0]] = [.. words.Skip(equals + 1).Where(w => w != ".")];
        }
        else
        {
            Usings.Add((string.Concat(words.SkipWhile(w => w == "static")), line));
        }

        return end;
    }

    private IEnumerable<string> Declared(int from)
    {
        var depth = 0;
        for (var i = from; i < _words.Count - 1; i++)
        {
            var word = _words[i].Text;
            depth += word is "{" or "(" ? 1 : word is "}" or ")" ? -1 : 0;
            if (depth == 0 && word == "delegate")
            {
                yield return _words[EndOf("(", i) - 1].Text;
            }
            else if (depth == 0
                && Kinds.Contains(word) && _words[i - 1].Text is not (":" or ",") && _words[i + 1].IsName && !Kinds.Contains(_words[i + 1].Text))
            {
                yield return _words[i + 1].Text;
            }
        }
    }

    private IEnumerable<(string[] Parts, int Line)> Chains(int from)
    {
        for (var i = from; i < _words.Count; i++)
        {
            if (!_words[i].IsName || _words[i - 1 >= 0 ? i - 1 : 0].Text == ".")
            {
                continue;
            }

            var (line, parts) = (_words[i].Line, new List<string> { _words[i].Text });
            for (; i + 2 < _words.Count && _words[i + 1].Text == "." && _words[i + 2].IsName; i += 2)
            {
                parts.Add(_words[i + 2].Text);
            }

            yield return ([.. parts], line);
        }
    }
}
