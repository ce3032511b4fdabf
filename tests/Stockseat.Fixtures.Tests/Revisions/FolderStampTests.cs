using Stockseat.Fixtures.Revisions;
using Stockseat.Fixtures.Tests.Support;

namespace Stockseat.Fixtures.Tests.Revisions;

public sealed class FolderStampTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void An_untouched_folder_has_the_same_stamp()
    {
        _folder.WritePins(1);
        _folder.WritePins(2);

        Assert.True(Take()!.SameAs(Take()));
        Assert.False(Take()!.SameAs(null));
    }

    [Fact]
    public void A_file_that_is_added_removed_extended_or_rewritten_changes_the_stamp()
    {
        _folder.WritePins(1);
        var path = _folder.WritePins(2);
        Shows(() => File.AppendAllText(path, " "));
        Shows(() => File.SetLastWriteTimeUtc(path, File.GetLastWriteTimeUtc(path).AddTicks(10)));
        Shows(() => File.Move(path, path.Replace("r0002", "r0003", StringComparison.Ordinal)));
        Shows(() => _folder.WritePins(2));
        Shows(() => File.Delete(path));
        Shows(() => Directory.CreateDirectory(path));
    }

    [Fact]
    public void Files_of_other_kinds_do_not_change_the_stamp()
    {
        _folder.WritePins(1);
        var before = Take()!;
        _folder.Write("pinbed-1/r0002.json.new", "{");
        _folder.Write("pinbed-1/readme.txt", "");

        Assert.True(before.SameAs(Take()));
    }

    [Fact]
    public void A_folder_that_does_not_exist_or_has_links_in_it_has_no_stamp()
    {
        Assert.Null(Take());
        _folder.WritePins(1);
        try
        {
            File.CreateSymbolicLink(Path.Combine(_folder.Path, "pinbed-1", "r0002.json"), _folder.Write("elsewhere.json", "{}"));
        }
        catch (Exception e) when (OperatingSystem.IsWindows() && e is IOException or UnauthorizedAccessException)
        {
            Assert.Skip("this machine lets nobody make links");
        }

        Assert.Null(Take());
    }

    private void Shows(Action change)
    {
        var before = Take()!;
        change();
        Assert.False(before.SameAs(Take()));
    }

    private FolderStamp? Take() => FolderStamp.Take(_folder.Path, "pinbed-1");
}
