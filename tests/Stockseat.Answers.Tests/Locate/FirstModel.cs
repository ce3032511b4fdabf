using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Tests.Locate;

/// <summary>
/// When an answer is first, by the documents alone: until an answer for its purpose and nest was carried out, and again when its diameter differs from that
/// of the last answer of the purpose that was carried out. Whatever was read back completely may be carried out. An adoption and a miss begin everything anew.
/// </summary>
internal sealed class FirstModel(double nearMetres)
{
    private readonly Dictionary<long, Asked> _answers = [];
    private readonly HashSet<long> _readBack = [];
    private readonly Dictionary<(Purpose, int Column), long> _done = [];
    private readonly Dictionary<Purpose, double> _last = [];

    /// <summary>What an answer was for.</summary>
    public readonly record struct Asked(Purpose Purpose, int Column, double DiameterMetres);

    public bool IsFirst(Asked asked) =>
        !_done.ContainsKey((asked.Purpose, asked.Column)) || Math.Abs(_last[asked.Purpose] - asked.DiameterMetres) > nearMetres;

    public void Answered(long serial, Asked asked) => _answers[serial] = asked;

    /// <summary>All numbers of an answer were read back.</summary>
    public void ReadBack(long serial)
    {
        if (_answers.ContainsKey(serial))
        {
            _readBack.Add(serial);
        }
    }

    /// <summary>The move is said to be carried out.</summary>
    /// <returns>Whether that is accepted: it was read back, or it is said again.</returns>
    public bool CarriedOut(long serial)
    {
        var known = _answers.TryGetValue(serial, out var asked);
        if (!known || !_readBack.Remove(serial))
        {
            return known && _done.GetValueOrDefault((asked.Purpose, asked.Column)) == serial;
        }

        (_done[(asked.Purpose, asked.Column)], _last[asked.Purpose]) = (serial, asked.DiameterMetres);
        return true;
    }

    /// <summary>Another revision, or a master that was missed: answers from before count no more.</summary>
    public void BeginAnew()
    {
        _answers.Clear();
        _readBack.Clear();
        _done.Clear();
        _last.Clear();
    }
}
