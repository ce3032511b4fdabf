using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Asking;

/// <summary>A kind of entry with bodies of one type. Whatever a kind does not have to define does nothing by default.</summary>
/// <typeparam name="T">The type of its bodies.</typeparam>
public abstract class EntryKind<T> : EntryKind
    where T : EntryBody
{
    /// <summary>The conversion of its bodies to bytes.</summary>
    protected abstract JsonTypeInfo<T> Json { get; }

    public sealed override void Write(Utf8JsonWriter writer, EntryBody body) => JsonSerializer.Serialize(writer, (T)body, Json);

    public sealed override EntryBody? Read(ReadOnlySpan<byte> body) => JsonSerializer.Deserialize(body, Json);

    public sealed override string? Fault(EntryBody body, VerbTable table) => Fault((T)body, table);

    public sealed override Situation Apply(Situation situation, EntryBody body, VerbTable table, Func<IAdoption, Revision?> read) =>
        Apply(situation, (T)body, table, read);

    public sealed override bool Stands(EntryBody body, Situation situation, NewestEntries newest) => Stands((T)body, situation, newest);

    public sealed override IReadOnlyList<string> NewestOf(EntryBody body, VerbTable table) => NewestOf((T)body, table);

    protected virtual string? Fault(T body, VerbTable table) => null;

    protected virtual Situation Apply(Situation situation, T body, VerbTable table, Func<IAdoption, Revision?> read) => situation;

    protected virtual bool Stands(T body, Situation situation, NewestEntries newest) => false;

    protected virtual IReadOnlyList<string> NewestOf(T body, VerbTable table) => [];
}
