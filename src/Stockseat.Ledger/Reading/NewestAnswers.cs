using System.Text;
using Stockseat.Answers.Verbs;

namespace Stockseat.Ledger.Reading;

/// <summary>
/// The newest answers of each fixture, as bytes: one for a pick, one for a place, one for a pick of a lot, one of a load. Answers are most of what a ledger
/// has, so a body is copied and not read, and its buffer is used again. Answers of version 1 do not matter to what holds after them.
/// </summary>
internal sealed class NewestAnswers
{
    private readonly Dictionary<string, Fixture> _fixtures = new(StringComparer.Ordinal);

    private Fixture? _last;

    /// <summary>Those that are kept, each once.</summary>
    public IEnumerable<(long Serial, byte[] Bytes)> All =>
        _fixtures.Values.SelectMany(f => new[] { f.Pick, f.Place, f.Lot, f.Load }).Where(s => s.Serial > 0).DistinctBy(s => s.Serial)
            .Select(s => (s.Serial, s.Bytes()));

    /// <summary>Adds the next answer.</summary>
    /// <param name="serial">Its serial.</param>
    /// <param name="fixture">Its fixture, UTF-8.</param>
    /// <param name="body">Its body.</param>
    public void Add(long serial, ReadOnlySpan<byte> fixture, ReadOnlySpan<byte> body)
    {
        if (body.StartsWith("{\"v\":1,"u8) || body.Length > BodyJson.Longest)
        {
            return;
        }

        var of = Of(fixture);
        if (body.IndexOf("\"load\":"u8) >= 0)
        {
            of.Load.Take(serial, body);
        }

        if (body.IndexOf("\"purpose\":\"place\""u8) >= 0)
        {
            of.Place.Take(serial, body);
            return;
        }

        of.Pick.Take(serial, body);
        if (body.IndexOf("\"lot\":\""u8) >= 0)
        {
            of.Lot.Take(serial, body);
        }
    }

    public void Clear()
    {
        _fixtures.Clear();
        _last = null;
    }

    /// <summary>Mostly the one before.</summary>
    private Fixture Of(ReadOnlySpan<byte> name)
    {
        if (_last is not null && name.SequenceEqual(_last.Name))
        {
            return _last;
        }

        var text = Encoding.UTF8.GetString(name);
        if (!_fixtures.TryGetValue(text, out var found))
        {
            _fixtures[text] = found = new(name.ToArray());
        }

        return _last = found;
    }

    private sealed class Fixture(byte[] name)
    {
        public byte[] Name { get; } = name;

        public Slot Pick { get; } = new();

        public Slot Place { get; } = new();

        public Slot Lot { get; } = new();

        public Slot Load { get; } = new();
    }

    private sealed class Slot
    {
        private byte[] _buffer = [];
        private int _length;

        public long Serial { get; private set; }

        public void Take(long serial, ReadOnlySpan<byte> body)
        {
            if (_buffer.Length < body.Length)
            {
                _buffer = new byte[body.Length * 2];
            }

            body.CopyTo(_buffer);
            (Serial, _length) = (serial, body.Length);
        }

        public byte[] Bytes() => _buffer[.._length];
    }
}
