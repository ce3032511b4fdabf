using System.Buffers.Binary;
using System.Reflection.PortableExecutable;
using System.Text;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>Each test ran on the program that its name states. An ordinary build in place of the native one would pass all other tests.</summary>
public class ProgramFileTests
{
    // Where the native compiler puts the code that it generates; no other program has it.
    private const string ManagedCode = "__managedcode";

    [Fact]
    public void Native_IsOneFileOfMachineCode_WithNoAssemblyBesideIt()
    {
        var native = Built.Native;

        Assert.Contains(ManagedCode, Sections(native.Path));
        Assert.Empty(Managed(native.Folder));
    }

    [Fact]
    public void Ordinary_StartsTheAssemblyBesideIt()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "the program is not an ELF file on this system");
        var managed = Managed(Built.Ordinary.Folder);

        Assert.Contains("stockseat.dll", managed);
        Assert.Contains("stockseat.runtimeconfig.json", managed);
        Assert.DoesNotContain(ManagedCode, Sections(Built.Ordinary.Path));
    }

    [Theory]
    [InlineData("--version")]
    [InlineData("tour")]
    public async Task Native_WithoutARuntime_RunsAndTheOrdinaryDoesNot(string command)
    {
        using var empty = new Cell();
        var nowhere = Directory.CreateDirectory(Path.Combine(empty.Folder, "nowhere")).FullName;
        (string, string)[] environment = [("PATH", nowhere), ("DOTNET_ROOT", nowhere), ("DOTNET_ROOT_X64", nowhere), ("TMPDIR", nowhere)];

        var native = (await Built.Native.RunWith(environment, command)).Exits(0);
        var ordinary = await Built.Ordinary.RunWith(environment, command);

        Assert.NotEmpty(native.Out);
        Assert.Empty(native.Err);
        Assert.NotEqual(0, ordinary.ExitCode);
        Assert.Empty(ordinary.Out);
    }

    /// <summary>The files in a folder that a run-time would read: assemblies and their configuration.</summary>
    private static List<string> Managed(string folder) =>
        [
            .. Directory.EnumerateFiles(folder)
            .Where(f => f.EndsWith(".runtimeconfig.json", StringComparison.Ordinal) || f.EndsWith(".deps.json", StringComparison.Ordinal) || IsAssembly(f))
            .Select(f => Path.GetFileName(f)),
        ];

    private static bool IsAssembly(string file)
    {
        using var stream = File.OpenRead(file);
        if (stream.ReadByte() != 'M' || stream.ReadByte() != 'Z')
        {
            return false;
        }

        stream.Position = 0;
        using var reader = new PEReader(stream);
        return reader.HasMetadata;
    }

    /// <summary>The names of the sections of a 64-bit ELF file, the low byte first.</summary>
    private static List<string> Sections(string file)
    {
        var bytes = File.ReadAllBytes(file);
        Assert.Equal([0x7f, (byte)'E', (byte)'L', (byte)'F', 2, 1], bytes[..6]);
        var (at, size, count, names) = ((int)Number(bytes, 0x28, 8), (int)Number(bytes, 0x3a, 2), (int)Number(bytes, 0x3c, 2), (int)Number(bytes, 0x3e, 2));
        var text = (int)Number(bytes, at + (names * size) + 0x18, 8);
        return [.. Enumerable.Range(0, count).Select(i => Text(bytes.AsSpan(text + (int)Number(bytes, at + (i * size), 4))))];
    }

    private static ulong Number(byte[] bytes, int at, int length) => length switch
    {
        2 => BinaryPrimitives.ReadUInt16LittleEndian(bytes.AsSpan(at)),
        4 => BinaryPrimitives.ReadUInt32LittleEndian(bytes.AsSpan(at)),
        _ => BinaryPrimitives.ReadUInt64LittleEndian(bytes.AsSpan(at)),
    };

    private static string Text(ReadOnlySpan<byte> bytes) => Encoding.ASCII.GetString(bytes[..bytes.IndexOf((byte)0)]);
}
