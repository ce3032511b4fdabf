namespace Stockseat.EndToEnd.Sources;

/// <summary>A dependency: a file of one folder uses a type of another folder.</summary>
/// <param name="File">The file, from the repository's root.</param>
/// <param name="Line">The line.</param>
/// <param name="Type">The type; or the namespace, where only the namespace is used.</param>
/// <param name="From">The folder of the file.</param>
/// <param name="To">The folder of the type.</param>
internal sealed record FolderArrow(string File, int Line, string Type, string From, string To);
