using Stockseat.Fixtures.Revisions;
using Stockseat.Fixtures.Tests.Support;

namespace Stockseat.Fixtures.Tests.Revisions;

public sealed class SameFolderTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Two_readings_are_the_same_when_their_bytes_are_the_same()
    {
        _folder.WritePins(1);
        _folder.Write("pinbed-1/r0002.json", "{");
        var before = Read();
        Assert.True(before.SameAs(Read()));
        Assert.False(before.SameAs(null));

        Other(before, () => _folder.Write("pinbed-1/r0002.json", "["));
        Other(before, () => File.Delete(Path.Combine(_folder.Path, "pinbed-1", "r0002.json")));
        _folder.Write("pinbed-1/r0002.json", "{");
        Assert.True(before.SameAs(Read()));
        Other(before, () => _folder.Write("pinbed-1/notes.json", ""));
        Assert.True(Read().SameAs(Read()));
    }

    [Fact]
    public void Two_unreadable_files_are_the_same_when_they_have_the_same_fault()
    {
        _folder.Write("pinbed-1/r0001.json", new string(' ', 2_000_000));
        var before = Read();

        Assert.True(before.SameAs(Read()));
        Other(before, () => _folder.Write("pinbed-1/r0001.json", new string(' ', 2_000_001)));
    }

    [Fact]
    public void A_file_with_the_same_bytes_is_taken_from_an_earlier_reading()
    {
        _folder.WritePins(1);
        _folder.WritePins(2);
        var before = Read();
        _folder.Write("pinbed-1/r0002.json", TemporaryFolder.Pins(2, spacing: "61 mm"));
        var after = Read(null, before);

        Assert.Same(before.Files[0], after.Files[0]);
        Assert.NotEqual(before.Files[1].Reading.Revision!.Digest, after.Files[1].Reading.Revision!.Digest);
    }

    [Fact]
    public void Prepared_values_are_reused_for_the_same_values_only()
    {
        _folder.WritePins(1);
        _folder.WritePins(2);
        var folder = Read().Prepare(inForce: null);
        var (one, other) = (folder.Files[0].Reading.Revision!, folder.Files[1].Reading.Revision!);

        Assert.Same(one.Prepared, RevisionReader.FromContent(one.Content, "an entry").Revision!.Prepare().Prepared);
        Assert.NotSame(one.Prepared, other.Prepared);
    }

    [Fact]
    public void A_revision_below_the_number_in_force_is_not_prepared_and_not_solved_by_the_way()
    {
        _folder.WritePins(1);
        _folder.WritePins(2);
        var folder = Read().Prepare(inForce: 2);

        Assert.True(folder.Files[1].Reading.Revision!.IsPrepared);
        var below = folder.Files[0].Reading.Revision!;
        Assert.False(below.IsPrepared);
        Assert.Contains("revision 1 of pinbed-1", Assert.Throws<InvalidOperationException>(() => below.Prepared).Message, StringComparison.Ordinal);
    }

    private void Other(FixtureFolder before, Action change)
    {
        change();
        Assert.False(before.SameAs(Read()));
    }

    private FixtureFolder Read(params ReadOnlySpan<FixtureFolder?> known) => FixtureFolder.Read(_folder.Path, "pinbed-1", known)!;
}
