using nietras.SeparatedValues;

namespace Stockseat.Cli.Output;

/// <summary>Comma-separated values (RFC 4180): a header row, then rows, each ended with CR LF.</summary>
internal sealed class CsvTable : IDisposable
{
    private readonly SepWriter _writer;

    /// <param name="target">Where it goes; it stays open.</param>
    /// <param name="columns">The names of the columns.</param>
    public CsvTable(TextWriter target, IReadOnlyList<string> columns)
    {
        target.NewLine = "\r\n";
        _writer = Sep.New(',').Writer(o => o with { Escape = true }).To(target, leaveOpen: true);
        _writer.Header.Add(columns);
        _writer.Header.Write();
    }

    /// <summary>Adds a row.</summary>
    public void Add(IReadOnlyList<string> fields)
    {
        using var row = _writer.NewRow();
        for (var i = 0; i < fields.Count; i++)
        {
            row[i].Set(fields[i]);
        }
    }

    public void Dispose() => _writer.Dispose();
}
