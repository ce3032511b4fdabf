using System.Text.Json;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Roll;

namespace Stockseat.Answers.Verbs;

/// <summary>Converts bodies to bytes and back. A value that is not known is absent, never null.</summary>
public static class BodyJson
{
    /// <summary>The most bytes that a body may have.</summary>
    public const int Longest = EntryKind.UsualLongest;

    /// <summary>The most bytes of an entry that carries older entries.</summary>
    public const int LongestRolledOver = EntryKind.LongestCarrying;

    /// <summary>The most bytes that a body of a kind may have.</summary>
    public static int LongestOf(string kind) => RegisteredVerbs.Table.FindKind(kind)?.Longest ?? Longest;

    /// <summary>Writes a body's bytes.</summary>
    public static void Write(Utf8JsonWriter writer, EntryBody body) => RegisteredVerbs.Table.KindOf(body).Write(writer, body);

    /// <summary>Reads a body of a kind; null when this version does not know the kind. Every reader of bodies comes through here.</summary>
    /// <exception cref="JsonException">It is not such a body, it is too long, or it holds something that the service never writes.</exception>
    public static EntryBody? Read(string kind, ReadOnlySpan<byte> body) => RegisteredVerbs.Table.Read(kind, body);

    /// <summary>
    /// Why a body of this length is not read, in words; null when it may be read. A reader of rows gets an empty body in place of one that is too long.
    /// </summary>
    public static string? TooLong(string kind, long bytes) => RegisteredVerbs.Table.TooLong(kind, bytes);

    /// <summary>The bodies that the first entry of a ledger carries.</summary>
    /// <exception cref="JsonException">This version does not know one of them.</exception>
    public static IEnumerable<EntryBody> ReadCarried(this RolledOverBody body) => body.ReadCarried(RegisteredVerbs.Table);
}
