using System.Runtime.InteropServices;

namespace Stockseat.Ledger.Store;

/// <summary>
/// The calls that are needed for each column of each row, without the wrapper of the provider. The wrapper counts the handle up and down and tells the run-time
/// that the thread is away, which takes longer than the call itself. All of these calls return at once and call nobody back.
/// </summary>
internal static unsafe partial class RowCalls
{
    private const string Library = "e_sqlite3"; // The library that the provider loads.
    private const DllImportSearchPath Where = DllImportSearchPath.AssemblyDirectory | DllImportSearchPath.SafeDirectories;

    /// <summary>A column of the current row of a statement; this call takes a lock, and the calls below then need none.</summary>
    [LibraryImport(Library, EntryPoint = "sqlite3_column_value"), SuppressGCTransition, DefaultDllImportSearchPaths(Where)]
    public static partial nint Value(nint statement, int column);

    [LibraryImport(Library, EntryPoint = "sqlite3_value_type"), SuppressGCTransition, DefaultDllImportSearchPaths(Where)]
    public static partial int TypeOf(nint value);

    [LibraryImport(Library, EntryPoint = "sqlite3_value_int64"), SuppressGCTransition, DefaultDllImportSearchPaths(Where)]
    public static partial long Integer(nint value);

    /// <summary>The bytes of a text or a blob; they are valid until the next step.</summary>
    public static ReadOnlySpan<byte> Bytes(nint value)
    {
        var first = Blob(value); // Before asking for the length, or a text might be converted.
        return new(first, Length(value));
    }

    [LibraryImport(Library, EntryPoint = "sqlite3_value_blob"), SuppressGCTransition, DefaultDllImportSearchPaths(Where)]
    private static partial byte* Blob(nint value);

    [LibraryImport(Library, EntryPoint = "sqlite3_value_bytes"), SuppressGCTransition, DefaultDllImportSearchPaths(Where)]
    private static partial int Length(nint value);
}
