using Stockseat.Fixtures.Files;
using Stockseat.Fixtures.Tests.Support;

namespace Stockseat.Fixtures.Tests.Files;

public sealed class NewFileTests
{
    [Fact]
    public void A_file_is_written_completely_and_leaves_nothing_beside_it()
    {
        using var folder = new TemporaryFolder();
        var path = Path.Combine(folder.Path, "r0012.json");

        NewFile.Write(path, "{}"u8);

        Assert.Equal("{}", File.ReadAllText(path));
        Assert.Equal([path], Directory.GetFiles(folder.Path));
    }

    [Fact]
    public void An_existing_file_is_never_overwritten()
    {
        using var folder = new TemporaryFolder();
        var path = folder.Write("r0001.json", "mine");

        Assert.Throws<IOException>(() => NewFile.Write(path, "{}"u8));

        Assert.Equal("mine", File.ReadAllText(path));
        Assert.Equal([path], Directory.GetFiles(folder.Path));
    }

    [Fact]
    public void A_file_that_appeared_meanwhile_is_not_overwritten()
    {
        using var folder = new TemporaryFolder();
        var path = Path.Combine(folder.Path, "export.csv");
        using (var made = NewFile.Begin(path))
        {
            made.Text.Write("ours");
            folder.Write("export.csv", "mine");

            Assert.Throws<IOException>(made.Finish);
        }

        Assert.Equal("mine", File.ReadAllText(path));
        Assert.Equal([path], Directory.GetFiles(folder.Path));
    }

    [Fact]
    public void An_unfinished_file_leaves_nothing_behind()
    {
        using var folder = new TemporaryFolder();
        using (var made = NewFile.Begin(Path.Combine(folder.Path, "export.csv")))
        {
            made.Text.Write("half");
        }

        Assert.Equal([], Directory.GetFiles(folder.Path));
    }

    [Fact]
    public void A_page_replaces_an_older_one()
    {
        using var folder = new TemporaryFolder();
        var path = folder.Write("card.html", "an older and longer card");

        NewFile.Replace(path, "card"u8);

        Assert.Equal("card", File.ReadAllText(path));
        Assert.Equal([path], Directory.GetFiles(folder.Path));
    }

    [Fact]
    public void A_page_is_written_where_there_was_none()
    {
        using var folder = new TemporaryFolder();
        var path = Path.Combine(folder.Path, "card.html");

        NewFile.Replace(path, "card"u8);

        Assert.Equal("card", File.ReadAllText(path));
    }

    [Fact]
    public void A_link_to_a_page_stays_a_link()
    {
        using var folder = new TemporaryFolder();
        var path = folder.Write("card.html", "older");
        var link = File.CreateSymbolicLink(Path.Combine(folder.Path, "link.html"), path);

        NewFile.Replace(link.FullName, "card"u8);

        Assert.Equal("card", File.ReadAllText(path));
        Assert.Equal(path, File.ResolveLinkTarget(link.FullName, returnFinalTarget: false)?.FullName);
    }
}
