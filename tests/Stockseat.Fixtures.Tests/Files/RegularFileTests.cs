using System.Diagnostics;
using System.Net.Sockets;
using Stockseat.Fixtures.Files;
using Xunit;

namespace Stockseat.Fixtures.Tests.Files;

/// <summary>Whatever is found in place of a file, its reader is never blocked.</summary>
public sealed class RegularFileTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("files-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Read_RegularFile_GivesItsBytes()
    {
        File.WriteAllText(At("a.json"), "{}");
        Assert.Equal("{}"u8.ToArray(), RegularFile.Read(At("a.json"), 2));
    }

    [Fact]
    public void Read_LongerThanStated_SaysBothLengthsAndTheName()
    {
        File.WriteAllText(At("a.json"), "{ }");
        var e = Assert.Throws<IOException>(() => RegularFile.Read(At("a.json"), 2));
        Assert.Contains("a.json has 3 bytes; at most 2", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_Missing_NamesIt() =>
        Assert.Contains("none.json", Assert.Throws<FileNotFoundException>(() => RegularFile.Read(At("none.json"), 2)).Message, StringComparison.Ordinal);

    [Fact]
    public void Read_Folder_IsRefused() =>
        Assert.Contains("not a regular file", Assert.Throws<IOException>(() => RegularFile.Read(_folder, 2)).Message, StringComparison.Ordinal);

    [Fact]
    public async Task Read_PipeWithoutWriter_IsRefusedAtOnce()
    {
        await NamedPipe.Make(At("pipe"));
        var read = Task.Run(() => Assert.Throws<IOException>(() => RegularFile.Read(At("pipe"), 2)));
        Assert.Contains("not a regular file", (await read.Within("the reading of a pipe")).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_SocketOrDevice_IsRefused()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "only Linux has sockets and devices with file names");
        using var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        socket.Bind(new UnixDomainSocketEndPoint(At("socket")));
        Assert.Contains("not a regular file", Assert.Throws<IOException>(() => RegularFile.Read(At("socket"), 2)).Message, StringComparison.Ordinal);
        Assert.Contains("not a regular file", Assert.Throws<IOException>(() => RegularFile.Read("/dev/zero", 2)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Facts_RenamedAndReplaced_TellWhichFileItIs()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "a file's number is used on Linux only");
        File.WriteAllText(At("a"), "1");
        var before = FileFacts.Of(At("a"));
        using var open = RegularFile.Open(At("a"));
        File.Move(At("a"), At("b"));
        File.WriteAllText(At("a"), "2");

        Assert.True(before!.Value.IsRegular);
        Assert.Equal(1, before.Value.Bytes);
        Assert.True(FileFacts.Of(open)!.Value.SameFile(before.Value));
        Assert.True(FileFacts.Of(At("b"))!.Value.SameFile(before.Value));
        Assert.False(FileFacts.Of(At("a"))!.Value.SameFile(before.Value));
        Assert.Null(FileFacts.Of(At("none")));
    }

    private string At(string name) => Path.Combine(_folder, name);
}
