using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Asking;

/// <summary>A kind of entry: its bytes, what a body of it may hold, what it changes, and whether a new ledger has to carry it.</summary>
public abstract class EntryKind
{
    /// <summary>The most bytes that a body may have: a revision's file has 1 MiB at most, and its values may be longer in SI units.</summary>
    public const int UsualLongest = 4 << 20;

    /// <summary>The same of an entry that carries what older ones made hold: every revision that was ever adopted.</summary>
    public const int LongestCarrying = 64 << 20;

    /// <summary>Its name, as the ledger writes it.</summary>
    public abstract string Name { get; }

    /// <summary>The most bytes that a body of it may have.</summary>
    public virtual int Longest => UsualLongest;

    /// <summary>Whether what holds may come from an entry of it: those of other kinds are not even looked at.</summary>
    public virtual bool MayStand => true;

    /// <summary>Writes a body's bytes.</summary>
    public abstract void Write(Utf8JsonWriter writer, EntryBody body);

    /// <summary>Reads a body, whatever it holds.</summary>
    public abstract EntryBody? Read(ReadOnlySpan<byte> body);

    /// <summary>What no body of the service holds, in words; null when all of it may be.</summary>
    /// <param name="body">A body that was read.</param>
    /// <param name="table">Reads what it carries.</param>
    public abstract string? Fault(EntryBody body, VerbTable table);

    /// <summary>What holds after an entry.</summary>
    /// <param name="situation">What held before it.</param>
    /// <param name="body">The entry.</param>
    /// <param name="table">Applies what it carries.</param>
    /// <param name="read">Reads the revision that an entry adopts; null when it does not read back to its digest.</param>
    public abstract Situation Apply(Situation situation, EntryBody body, VerbTable table, Func<IAdoption, Revision?> read);

    /// <summary>Whether what holds comes from an entry, so that a new ledger has to carry it.</summary>
    /// <param name="body">The entry.</param>
    /// <param name="situation">What holds.</param>
    /// <param name="newest">The newest entries of the ledger.</param>
    public abstract bool Stands(EntryBody body, Situation situation, NewestEntries newest);

    /// <summary>Among which entries of its fixture it counts as long as it is the newest, by names; none: it is not carried for that.</summary>
    public abstract IReadOnlyList<string> NewestOf(EntryBody body, VerbTable table);
}
