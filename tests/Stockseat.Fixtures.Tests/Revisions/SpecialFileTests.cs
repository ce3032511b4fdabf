using System.Net.Sockets;
using Stockseat.Fixtures.Revisions;
using Stockseat.Fixtures.Tests.Support;

namespace Stockseat.Fixtures.Tests.Revisions;

/// <summary>Something that is not a regular file, among the revisions: it never blocks the reader, and is a fault like any other.</summary>
public sealed class SpecialFileTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public SpecialFileTests() => _folder.WritePins(1);

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task A_pipe_is_a_fault_of_its_revision_number()
    {
        await NamedPipe.Make(Second);
        await Task.Run(IsFaulty).Within("the reading of the folder");
    }

    [Theory]
    [InlineData("/dev/zero")]
    [InlineData("/dev/tty")]
    [InlineData("/dev/null")]
    [InlineData("/proc/self")]
    [InlineData("/")]
    public async Task A_link_to_a_device_a_pipe_or_a_folder_is_a_fault_of_its_revision_number(string target)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "only Linux has these files");
        File.CreateSymbolicLink(Second, target);
        await Task.Run(IsFaulty).Within("the reading of the folder");
    }

    [Theory]
    [InlineData("/proc/self/mem")]
    [InlineData("/proc/self/pagemap")]
    [InlineData("/proc/kmsg")]
    public async Task A_link_to_something_that_only_looks_like_a_file_is_a_fault_of_its_revision_number(string target)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "only Linux has these files");
        File.CreateSymbolicLink(Second, target);
        await Task.Run(() => Assert.StartsWith($"{Second}: ", Assert.Single(Files()[1].Reading.Faults), StringComparison.Ordinal))
            .Within("the reading of the folder");
    }

    [Fact]
    public void A_socket_and_a_folder_are_faults_of_their_revision_numbers()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "only Linux has sockets with file names");
        using (var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified))
        {
            socket.Bind(new UnixDomainSocketEndPoint(Second));
            IsFaulty();
        }

        File.Delete(Second);
        Directory.CreateDirectory(Second);
        IsFaulty();
    }

    private string Second => Path.Combine(_folder.Path, "pinbed-1", "r0002.json");

    private IReadOnlyList<RevisionFile> Files() => FixtureFolder.Read(_folder.Path, "pinbed-1")!.Files;

    private void IsFaulty()
    {
        var files = Files();
        Assert.Equal([1, 2], files.Select(f => f.Number));
        Assert.NotNull(files[0].Reading.Revision);
        Assert.Equal(
            ("", $"{Second}: is not a regular file (it is a folder, a pipe, a socket or a device); put a file there, or move it away"),
            (files[1].FileHash, Assert.Single(files[1].Reading.Faults)));
    }
}
