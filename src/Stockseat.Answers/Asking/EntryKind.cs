using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Asking;

/// <summary>A kind of entry: its bytes, what its bodies may hold, what an entry changes, and whether a new ledger has to carry it.</summary>
public abstract class EntryKind
{
    /// <summary>The most bytes that a body may have: the file of a revision has at most 1 MiB, and its values may be longer in SI units.</summary>
    public const int UsualLongest = 4 << 20;

    /// <summary>The most bytes of an entry that carries older entries: it carries every revision that was ever adopted.</summary>
    public const int LongestCarrying = 64 << 20;

    /// <summary>The name of the kind, as the ledger writes it.</summary>
    public abstract string Name { get; }

    /// <summary>The most bytes that a body of this kind may have.</summary>
    public virtual int Longest => UsualLongest;

    /// <summary>Whether an entry of this kind can be one that has to be carried: entries of other kinds are not even looked at.</summary>
    public virtual bool MayStand => true;

    /// <summary>Writes the bytes of a body.</summary>
    public abstract void Write(Utf8JsonWriter writer, EntryBody body);

    /// <summary>Reads a body, whatever it holds.</summary>
    public abstract EntryBody? Read(ReadOnlySpan<byte> body);

    /// <summary>What a body holds that the service never writes, in words; null when there is no such thing.</summary>
    /// <param name="body">A body that was read.</param>
    /// <param name="table">Reads the entries that it carries.</param>
    public abstract string? Fault(EntryBody body, VerbTable table);

    /// <summary>The situation after an entry.</summary>
    /// <param name="situation">The situation before it.</param>
    /// <param name="body">The entry.</param>
    /// <param name="table">Applies the entries that it carries.</param>
    /// <param name="read">Reads the revision that an entry adopts; null when its values do not give its digest.</param>
    public abstract Situation Apply(Situation situation, EntryBody body, VerbTable table, Func<IAdoption, Revision?> read);

    /// <summary>Whether the situation rests on an entry, so that a new ledger has to carry it.</summary>
    /// <param name="body">The entry.</param>
    /// <param name="situation">The situation.</param>
    /// <param name="newest">The newest entries of the ledger.</param>
    public abstract bool Stands(EntryBody body, Situation situation, NewestEntries newest);

    /// <summary>
    /// The groups of entries of its fixture, by name, in which an entry counts as long as it is the newest; none: it is not carried for such a reason.
    /// </summary>
    public abstract IReadOnlyList<string> NewestOf(EntryBody body, VerbTable table);
}
