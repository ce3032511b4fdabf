using System.Buffers.Binary;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Tests.Support;

/// <summary>
/// Which bytes of a database file have a meaning, according to the file format that SQLite publishes (sqlite.org/fileformat2.html; from memory).
/// </summary>
internal sealed class PageMap
{
    private const int HeaderSize = 100;

    private readonly byte[] _file;
    private readonly bool[] _used;
    private readonly int _size;

    private PageMap(byte[] file)
    {
        (_file, _used) = (file, new bool[file.Length]);
        _size = BinaryPrimitives.ReadUInt16BigEndian(file.AsSpan(16));
    }

    /// <summary>Marks the header, and every page, cell and overflow page that a table or index reaches.</summary>
    public static bool[] Of(string folder)
    {
        var map = new PageMap(File.ReadAllBytes(Path.Combine(folder, LedgerFile.Name)));
        map.Use(0, HeaderSize);
        map.Page(1);
        using var reader = LedgerFile.OpenReader(folder);
        using var command = reader.CreateCommand();
        command.CommandText = "SELECT rootpage FROM sqlite_schema";
        using var roots = command.ExecuteReader();
        while (roots.Read())
        {
            map.Page(int.Parse(roots.GetString(0), CultureInfo.InvariantCulture));
        }

        return map._used;
    }

    private void Page(int number)
    {
        var start = (number - 1) * _size;
        var header = start + (number == 1 ? HeaderSize : 0);
        var type = _file[header];
        var interior = type is 2 or 5;
        Assert.Contains(type, (byte[])[2, 5, 10, 13]);
        var cells = Word(header + 3);
        var pointers = header + (interior ? 12 : 8);
        Use(header, (interior ? 12 : 8) + 2 * cells);
        for (var i = 0; i < cells; i++)
        {
            Cell(start + Word(pointers + 2 * i), type);
        }

        if (interior)
        {
            Page(Number(header + 8));
        }
    }

    private void Cell(int at, byte type)
    {
        var begin = at;
        if (type is 2 or 5)
        {
            Page(Number(at));
            at += 4;
        }

        if (type == 5)
        {
            Varint(ref at);
            Use(begin, at - begin);
            return;
        }

        var payload = (int)Varint(ref at);
        if (type == 13)
        {
            Varint(ref at);
        }

        var most = type == 13 ? _size - 35 : (_size - 12) * 64 / 255 - 23;
        var least = (_size - 12) * 32 / 255 - 23;
        var spilled = least + (payload - least) % (_size - 4);
        var local = payload <= most ? payload : spilled <= most ? spilled : least;
        at += local;
        if (local < payload)
        {
            Overflow(Number(at), payload - local);
            at += 4;
        }

        Use(begin, at - begin);
    }

    private void Overflow(int number, int left)
    {
        var start = (number - 1) * _size;
        var here = Math.Min(left, _size - 4);
        Use(start, 4 + here);
        if (left > here)
        {
            Overflow(Number(start), left - here);
        }
    }

    private void Use(int from, int count) => _used.AsSpan(from, count).Fill(true);

    private int Word(int at) => BinaryPrimitives.ReadUInt16BigEndian(_file.AsSpan(at));

    private int Number(int at) => BinaryPrimitives.ReadInt32BigEndian(_file.AsSpan(at));

    private long Varint(ref int at)
    {
        long value = 0;
        while (_file[at] >= 0x80)
        {
            value = (value << 7) | (uint)(_file[at++] & 0x7F);
        }

        return (value << 7) | _file[at++];
    }
}
