using System.Text.Json;

namespace Stockseat.Answers.State;

/// <summary>An entry that puts a revision into force.</summary>
public interface IAdoption
{
    /// <summary>The serial of the entry.</summary>
    long Serial { get; }

    string? Fixture { get; }

    /// <summary>The revision's number.</summary>
    int? Revision { get; }

    string? Digest { get; }

    /// <summary>The resolved values in SI units.</summary>
    JsonElement Content { get; }
}
