using System.Buffers;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Stockseat.Answers.Adopt;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Replaying;
using Stockseat.Answers.Snapshots;
using Stockseat.Answers.State;
using Stockseat.Answers.Verbs;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Verifying;
using Stockseat.Seating.Quantities;

namespace Stockseat.Audit.Replaying;

/// <summary>Replays entries one after another: decides each again and compares the bytes.</summary>
/// <param name="answers">Finds answers.</param>
/// <param name="revisions">The revisions, shared with others.</param>
/// <param name="result">Takes the result.</param>
internal sealed class EntryReplay(RecordedAnswers answers, AdoptedRevisions revisions, StretchResult result) : IDisposable
{
    private readonly ArrayBufferWriter<byte> _buffer = new(4096);
    private readonly Utf8JsonWriter _json = new(Stream.Null, new JsonWriterOptions { SkipValidation = true });
    private CarriedEntries _carried = new();
    private string? _program;
    private bool _sameProgram;

    /// <summary>What is in force before the next entry, by the ledger.</summary>
    public Situation Situation { get; private set; } = Situation.Empty;

    /// <summary>Moves the replay to the place before an entry.</summary>
    /// <param name="carried">The entries from which the state there comes.</param>
    /// <param name="begins">The first entry of the ledger.</param>
    /// <param name="program">The version of the program that wrote at that time; null: not known.</param>
    public void Place(CarriedEntries carried, long begins, string? program)
    {
        (Situation, _carried) = (carried.Situation(begins), carried);
        Wrote(program);
    }

    /// <summary>Replays the next entry.</summary>
    /// <param name="serial">Its serial, as its place says.</param>
    /// <param name="kind">Its kind.</param>
    /// <param name="bytes">Its body.</param>
    /// <returns>Null, or why it can't be read: then what holds after it is not known.</returns>
    public string? Next(long serial, string kind, ReadOnlySpan<byte> bytes)
    {
        if (kind == Kinds.Answer && bytes.Length <= BodyJson.Longest && IsPlain(serial, bytes))
        {
            return null;
        }

        EntryBody? body;
        try
        {
            body = BodyJson.Read(kind, bytes);
            if (body is null || !EntryBody.Knows(body.Version))
            {
                var has = body is null ? $"the kind {kind}, which this program does not know"
                    : $"version {body.Version}; this program knows {EntryBody.OldestVersion} to {EntryBody.CurrentVersion}";
                return $"entry {serial} has {has}: replay it with the program that wrote it";
            }

            if (KindIn(bytes) is var said && said != kind)
            {
                return $"entry {serial} has the kind {kind} in its column and {said ?? "none"} in its body: run stockseat ledger verify --data FOLDER";
            }

            if (Recomputing.Follows(body))
            {
                Count(body);
                answers.Before = serial;
                Judge(body, serial, bytes);
            }

            Situation = body is SnapshotBody ? Follow(serial, bytes) : Situation.Apply(body, revisions.Read);
            _carried.Add(serial, kind, body.Fixture, bytes);
        }
        catch (Exception e) when (IsOfTheBody(e))
        {
            return $"entry {serial} has a body that can't be read: {e.Message}";
        }

        if (body is AnswerBody answer)
        {
            answers.Keep(answer);
        }
        else if (body is ServiceStartedBody start)
        {
            Wrote(start.Program);
        }

        return null;
    }

    /// <summary>Makes a snapshot again. What follows uses the snapshot in the ledger, as a replay that begins there does.</summary>
    private Situation Follow(long serial, ReadOnlySpan<byte> bytes)
    {
        result.Others++;
        if (SnapshotJudge.Fault(serial, bytes, _carried) is not { } fault)
        {
            result.Same++;
            return Situation;
        }

        result.Differs(new(serial, Kinds.Snapshot, $"it does not carry what counts after entry {serial - 1}: {fault}", []));
        _carried.Add(serial, Kinds.Snapshot, null, bytes);
        return _carried.Situation(Situation.Begins);
    }

    /// <summary>The exceptions that a body can cause: somebody who can write the file can write anything into it.</summary>
    internal static bool IsOfTheBody(Exception e) =>
        e is not (SqliteException or IOException or OperationCanceledException or OutOfMemoryException or UnauthorizedAccessException);

    public void Dispose() => _json.Dispose();

    /// <summary>The kind that a body states; the hashes cover it, while a column could hide it. Null: it states none.</summary>
    private static string? KindIn(ReadOnlySpan<byte> bytes)
    {
        var reader = new Utf8JsonReader(bytes);
        reader.Read();
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var found = reader.ValueTextEquals("kind"u8);
            reader.Read();
            if (found)
            {
                return reader.GetString();
            }

            reader.Skip();
        }

        return null;
    }

    private void Wrote(string? program)
    {
        if (program is null || program != _program)
        {
            (_program, _sameProgram) = (program, program == LedgerReplay.Program);
        }
    }

    private void Count(EntryBody body)
    {
        switch (body)
        {
            case AnswerBody: result.Answers++; break;
            case RefusalBody: result.Refusals++; break;
            default: result.Others++; break;
        }
    }

    /// <summary>Whether an answer comes out byte for byte: nearly all do, and then the whole body need not be read.</summary>
    private bool IsPlain(long serial, ReadOnlySpan<byte> bytes)
    {
        try
        {
            if (AnswerInputs.Read(bytes) is not { } inputs)
            {
                return false;
            }

            var then = SituationThen.Of(inputs, Situation, out _);
            answers.Before = serial;
            if (Recomputing.Again(inputs, serial, then, given: false, answers.Find, revisions.Read).Body is not AnswerBody now || !IsSame(now, bytes))
            {
                return false;
            }

            (result.Answers, result.Same) = (result.Answers + 1, result.Same + 1);
            now.Serial = serial;
            Situation = then.Apply(now); // Its folder is noted: the next answer need not note it again.
            _carried.Add(serial, Kinds.Answer, now.Fixture, bytes);
            answers.Keep(now);
            return true;
        }
        catch (Exception e) when (IsOfTheBody(e))
        {
            return false; // The whole body shows what differs.
        }
    }

    private bool IsSame(EntryBody now, ReadOnlySpan<byte> bytes)
    {
        _buffer.ResetWrittenCount();
        _json.Reset(_buffer);
        BodyJson.Write(_json, now);
        _json.Flush();
        return bytes.SequenceEqual(_buffer.WrittenSpan);
    }

    /// <summary>
    /// Whether a refusal comes out to its very bytes with the lengths of its text in another unit: the service's display may have had any, and older versions
    /// wrote metres. Else the buffer holds the one in millimetres again.
    /// </summary>
    private bool IsSameInAnyUnit(RefusalBody now, ReadOnlySpan<byte> bytes) =>
        IsSame(now.In(LengthUnit.Inch), bytes) || IsSame(now.In(LengthUnit.Metre), bytes) || IsSame(now, bytes);

    private void Judge(EntryBody body, long serial, ReadOnlySpan<byte> bytes)
    {
        var then = SituationThen.Of(body, Situation, out var given);
        Recomputed again;
        try
        {
            again = Recomputing.Again(body, serial, then, given, answers.Find, revisions.Read);
        }
        catch (Exception e) when (IsOfTheBody(e))
        {
            again = new(null, false, $"deciding it again failed: {e.Message}");
        }

        result.Given += again.Given ? 1 : 0;
        if (again.Body is not { } now)
        {
            result.Differs(new(serial, body.Kind, $"could not be computed: {again.Fault}", []));
            return;
        }

        if (IsSame(now, bytes) || (now is RefusalBody refused && IsSameInAnyUnit(refused, bytes)))
        {
            result.Same++;
            return;
        }

        Compare(body, serial, bytes.ToArray());
    }

    private void Compare(EntryBody body, long serial, byte[] bytes)
    {
        var fields = BodyComparison.Of(bytes, _buffer.WrittenMemory, tolerant: !_sameProgram);
        if (fields.Count > 0)
        {
            result.Differs(new(serial, body.Kind, $"{fields.Count} {(fields.Count == 1 ? "value does" : "values do")} not come out as recorded", fields));
        }
        else if (_sameProgram)
        {
            result.Differs(new(serial, body.Kind, "its values come out as recorded, but its bytes are written differently", []));
        }
        else
        {
            result.Within++;
        }
    }
}
