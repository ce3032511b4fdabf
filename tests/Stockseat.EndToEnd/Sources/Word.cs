namespace Stockseat.EndToEnd.Sources;

/// <summary>A name, a keyword or a punctuation mark of a source.</summary>
/// <param name="Text">The word.</param>
/// <param name="Line">Its line, from 1.</param>
internal readonly record struct Word(string Text, int Line)
{
    public bool IsName => char.IsLetter(Text[0]) || Text[0] == '_';
}
