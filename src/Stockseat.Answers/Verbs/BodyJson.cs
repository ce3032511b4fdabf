using System.Text.Json;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Roll;

namespace Stockseat.Answers.Verbs;

/// <summary>Bodies to bytes and back. What is not known is absent, never null.</summary>
public static class BodyJson
{
    /// <summary>The most bytes that a body may have.</summary>
    public const int Longest = EntryKind.UsualLongest;

    /// <summary>The same of an entry that carries what older ones made hold.</summary>
    public const int LongestRolledOver = EntryKind.LongestCarrying;

    /// <summary>The most bytes that a body of a kind may have.</summary>
    public static int LongestOf(string kind) => RegisteredVerbs.Table.FindKind(kind)?.Longest ?? Longest;

    /// <summary>Writes a body's bytes.</summary>
    public static void Write(Utf8JsonWriter writer, EntryBody body) => RegisteredVerbs.Table.KindOf(body).Write(writer, body);

    /// <summary>Reads a body of a kind; null when the kind is not known to this version. Every reader of bodies comes through here.</summary>
    /// <exception cref="JsonException">It is no such body, it is too long, or it holds what the service never writes.</exception>
    public static EntryBody? Read(string kind, ReadOnlySpan<byte> body) => RegisteredVerbs.Table.Read(kind, body);

    /// <summary>Why a body of this length is not read, in words; null when it may be. Whoever reads rows has an empty one in place of one too long.</summary>
    public static string? TooLong(string kind, long bytes) => RegisteredVerbs.Table.TooLong(kind, bytes);

    /// <summary>The bodies that a beginning carries, read.</summary>
    /// <exception cref="JsonException">One is none that this version knows.</exception>
    public static IEnumerable<EntryBody> ReadCarried(this RolledOverBody body) => body.ReadCarried(RegisteredVerbs.Table);
}
