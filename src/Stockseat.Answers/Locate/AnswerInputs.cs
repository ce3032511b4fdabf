using System.Text.Json;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Locate;

/// <summary>
/// Reads only the inputs of an answer, since most of the time of a replay goes into JSON. The entry that is computed from these inputs is compared with the
/// recorded one byte by byte, so nothing that was not read is believed; where the bytes differ, the whole body is read.
/// </summary>
public static class AnswerInputs
{
    private static readonly double[] NotRead = [];

    /// <summary>Reads the inputs and leaves the results empty; null when the body does not have the form in which this version writes it.</summary>
    /// <exception cref="JsonException">It is not JSON.</exception>
    /// <exception cref="InvalidOperationException">A value is of another type.</exception>
    /// <exception cref="FormatException">A number is not valid for its type.</exception>
    public static AnswerBody? Read(ReadOnlySpan<byte> bytes)
    {
        var read = new Inputs();
        var reader = new Utf8JsonReader(bytes);
        if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject)
        {
            return null;
        }

        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var name = reader.ValueSpan;
            reader.Read();
            if (!Take(ref reader, name, ref read))
            {
                reader.Skip();
            }
        }

        return EntryBody.Knows(read.Version) && read is { Fixture: not null, At: not null, Purpose: not null } ? Of(read) : null;
    }

    private static bool Take(ref Utf8JsonReader reader, ReadOnlySpan<byte> name, ref Inputs read)
    {
        switch (name.Length)
        {
            case 1 when name[0] == 'v': read.Version = reader.GetInt32(); return true;
            case 2 when name.SequenceEqual("at"u8): read.At = reader.GetString(); return true;
            case 3 when name.SequenceEqual("tag"u8): read.Tag = reader.GetString(); return true;
            case 3 when name.SequenceEqual("lot"u8): read.Lot = reader.GetString(); return true;
            case 4 when name.SequenceEqual("cell"u8): read.Cell = reader.GetString(); return true;
            case 4 when name.SequenceEqual("unit"u8): read.Unit = reader.GetString(); return true;
            case 4 when name.SequenceEqual("load"u8): read.Load = reader.GetInt64(); return true;
            case 4 when name.SequenceEqual("nest"u8): Nest(ref reader, ref read); return true;
            case 6 when name.SequenceEqual("client"u8): read.Client = reader.GetString(); return true;
            case 6 when name.SequenceEqual("length"u8): read.Length = reader.GetDouble(); return true;
            case 6 when name.SequenceEqual("within"u8): read.Within = reader.GetDouble(); return true;
            case 7 when name.SequenceEqual("fixture"u8): read.Fixture = reader.GetString(); return true;
            case 7 when name.SequenceEqual("address"u8): read.Address = reader.GetString(); return true;
            case 7 when name.SequenceEqual("request"u8): read.Request = reader.GetString(); return true;
            case 7 when name.SequenceEqual("purpose"u8): read.Purpose = reader.GetString(); return true;
            case 7 when name.SequenceEqual("proving"u8): read.Proving = reader.GetString(); return true;
            case 7 when name.SequenceEqual("nominal"u8): read.Nominal = reader.GetDouble(); return true;
            case 8 when name.SequenceEqual("diameter"u8): read.Diameter = reader.GetDouble(); return true;
            case 8 when name.SequenceEqual("lotTerms"u8): read.LotTerms = JsonSerializer.Deserialize(ref reader, AnswerContext.Default.LotTerms); return true;
            case 8 when name.SequenceEqual("decimals"u8): read.Decimals = reader.GetInt32(); return true;
            case 11 when name.SequenceEqual("certificate"u8): read.Certificate = reader.GetString(); return true;
            case 11 when name.SequenceEqual("measurement"u8): read.Measurement = reader.GetInt64(); return true;
            default: return false;
        }
    }

    private static void Nest(ref Utf8JsonReader reader, ref Inputs read)
    {
        reader.Read();
        read.Column = reader.GetInt32();
        reader.Read();
        read.Row = reader.GetInt32();
        reader.Read();
    }

    private static AnswerBody Of(in Inputs read) => new()
    {
        Version = read.Version,
        At = read.At!,
        Fixture = read.Fixture,
        Client = read.Client,
        Cell = read.Cell,
        Address = read.Address,
        Certificate = read.Certificate,
        Tag = read.Tag,
        Request = read.Request,
        Purpose = read.Purpose!,
        Nest = [read.Column, read.Row],
        Diameter = read.Diameter,
        Measurement = read.Measurement,
        Lot = read.Lot,
        LotTerms = read.LotTerms,
        Nominal = read.Nominal,
        Within = read.Within,
        Proving = read.Proving,
        Decimals = read.Decimals,
        Unit = read.Unit,
        Load = read.Load,
        Length = read.Length,
        First = false,
        StandOff = 0,
        Position = NotRead,
        Orientation = NotRead,
        ShiftBase = NotRead,
        ShiftOrigin = NotRead,
    };

    private struct Inputs
    {
        public int Version;
        public string? At;
        public string? Fixture;
        public string? Proving;
        public string? Client;
        public string? Cell;
        public string? Address;
        public string? Certificate;
        public string? Tag;
        public string? Request;
        public string? Purpose;
        public int Column;
        public int Row;
        public double Diameter;
        public long? Measurement;
        public string? Lot;
        public LotTerms? LotTerms;
        public double? Nominal;
        public double? Within;
        public int Decimals;
        public string? Unit;
        public long? Load;
        public double? Length;
    }
}
