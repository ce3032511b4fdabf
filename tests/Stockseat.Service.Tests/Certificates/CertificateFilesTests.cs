using Stockseat.Service.Certificates.Issuing;

namespace Stockseat.Service.Tests.Certificates;

/// <summary>Certificates and keys are written both or not at all, and never in the place of a file.</summary>
public sealed class CertificateFilesTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("stockseat-certificates-");

    private string Certificate => Path.Combine(_folder.FullName, "a.pem");

    private string Key => Path.Combine(_folder.FullName, "a.key");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public void Only_the_owner_may_read_a_key()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows has no modes");
        CertificateFiles.Write(Certificate, "certificate", (Key, "key"));

        Assert.Equal(UnixFileMode.UserRead, Mode(Key));
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.GroupRead | UnixFileMode.OtherRead, Mode(Certificate));
        Assert.Equal(("certificate", "key"), (File.ReadAllText(Certificate), File.ReadAllText(Key)));
    }

    [Theory]
    [InlineData("a.pem")]
    [InlineData("a.key")]
    public void Where_one_of_the_files_exists_nothing_is_written(string name)
    {
        var there = Path.Combine(_folder.FullName, name);
        File.WriteAllText(there, "mine");

        var refused = Assert.Throws<IOException>(() => CertificateFiles.Write(Certificate, "certificate", (Key, "key")));

        Assert.Equal($"{there} already exists and is never overwritten", refused.Message);
        Assert.Equal([there], Directory.GetFiles(_folder.FullName));
        Assert.Equal("mine", File.ReadAllText(there));
    }

    [Fact]
    public void A_link_in_the_place_of_a_file_is_not_followed()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "links need a permission on Windows");
        var target = Path.Combine(_folder.FullName, "elsewhere");
        File.CreateSymbolicLink(Key, target);

        Assert.ThrowsAny<IOException>(() => CertificateFiles.Write(Certificate, "certificate", (Key, "key")));
        Assert.False(File.Exists(target));
        Assert.False(File.Exists(Certificate));
    }

    [Fact]
    public void Of_many_at_the_same_moment_one_writes_both_files_and_the_others_none()
    {
        var refused = 0;
        Parallel.For(0, 32, i =>
        {
            try
            {
                CertificateFiles.Write(Certificate, $"certificate {i}", (Key, $"key {i}"));
            }
            catch (IOException)
            {
                Interlocked.Increment(ref refused);
            }
        });

        Assert.Equal(31, refused);
        Assert.Equal(File.ReadAllText(Key).Replace("key", "certificate", StringComparison.Ordinal), File.ReadAllText(Certificate));
        Assert.Equal(2, Directory.GetFiles(_folder.FullName).Length);
    }

    private static UnixFileMode Mode(string path) => OperatingSystem.IsWindows() ? UnixFileMode.None : File.GetUnixFileMode(path);
}
