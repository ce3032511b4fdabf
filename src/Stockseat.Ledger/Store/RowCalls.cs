using System.Runtime.InteropServices;

namespace Stockseat.Ledger.Store;

/// <summary>
/// The calls that each column of each row costs, without what the provider puts around a call: its handle is counted up and down, and the
/// run-time told that the thread is away, which takes longer than the call. All of these return at once and call nobody back.
/// </summary>
internal static unsafe partial class RowCalls
{
    private const string Library = "e_sqlite3"; // the one that the provider loads
    private const DllImportSearchPath Where = DllImportSearchPath.AssemblyDirectory | DllImportSearchPath.SafeDirectories;

    /// <summary>A column of the row that a statement stands on; one lock, and those below need none.</summary>
    [LibraryImport(Library, EntryPoint = "sqlite3_column_value"), SuppressGCTransition, DefaultDllImportSearchPaths(Where)]
    public static partial nint Value(nint statement, int column);

    [LibraryImport(Library, EntryPoint = "sqlite3_value_type"), SuppressGCTransition, DefaultDllImportSearchPaths(Where)]
    public static partial int TypeOf(nint value);

    [LibraryImport(Library, EntryPoint = "sqlite3_value_int64"), SuppressGCTransition, DefaultDllImportSearchPaths(Where)]
    public static partial long Integer(nint value);

    /// <summary>The bytes of a text or a blob; they hold until the next step.</summary>
    public static ReadOnlySpan<byte> Bytes(nint value)
    {
        var first = Blob(value); // before the length, or a text might be converted
        return new(first, Length(value));
    }

    [LibraryImport(Library, EntryPoint = "sqlite3_value_blob"), SuppressGCTransition, DefaultDllImportSearchPaths(Where)]
    private static partial byte* Blob(nint value);

    [LibraryImport(Library, EntryPoint = "sqlite3_value_bytes"), SuppressGCTransition, DefaultDllImportSearchPaths(Where)]
    private static partial int Length(nint value);
}
