using Stockseat.Fixtures.Calibration;
using Stockseat.Fixtures.Tests.Support;

namespace Stockseat.Fixtures.Tests.Calibration;

public sealed class NewRevisionFileTests
{
    [Fact]
    public void A_file_is_written_whole_and_leaves_nothing_beside_it()
    {
        using var folder = new TemporaryFolder();
        var path = NewRevisionFile.Path(folder.Path, 12);

        NewRevisionFile.Write(path, "{}"u8.ToArray());

        Assert.Equal("r0012.json", Path.GetFileName(path));
        Assert.Equal("{}", File.ReadAllText(path));
        Assert.Equal([path], Directory.GetFiles(folder.Path));
    }

    [Fact]
    public void A_file_that_is_there_is_never_written_over()
    {
        using var folder = new TemporaryFolder();
        var path = folder.Write("r0001.json", "mine");

        Assert.Throws<IOException>(() => NewRevisionFile.Write(path, "{}"u8.ToArray()));

        Assert.Equal("mine", File.ReadAllText(path));
        Assert.Equal([path], Directory.GetFiles(folder.Path));
    }
}
