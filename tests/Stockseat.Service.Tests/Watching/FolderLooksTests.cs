using Microsoft.Extensions.Time.Testing;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;
using Stockseat.Service.Watching;

namespace Stockseat.Service.Tests.Watching;

public sealed class FolderLooksTests : IDisposable
{
    private readonly string _root = Directory.CreateTempSubdirectory("stockseat-looks-").FullName;
    private readonly FakeTimeProvider _time = new();
    private readonly Counted _folders;
    private readonly FolderLooks _looks;
    private Situation _situation = Situation.Empty;

    public FolderLooksTests()
    {
        _folders = new(new FoldersOnDisk(_root));
        var intervals = new WatchIntervals { PollsToReadAll = 5 };
        _looks = new(new(_folders, intervals, _time), intervals, _time);
    }

    public void Dispose() => Directory.Delete(_root, recursive: true);

    [Fact]
    public void A_change_is_accepted_when_two_looks_far_enough_apart_saw_the_same()
    {
        Write(1, "{");
        Assert.Empty(Look());
        Assert.Equal(["bed"], _looks.Unsettled);
        Assert.Empty(LookAfter(249));

        Write(1, "{}");
        Assert.Empty(LookAfter(1));
        Assert.Empty(LookAfter(249));
        Assert.Equal(["1"], Numbers(LookAfter(1)));

        Assert.Empty(LookAfter(250));
        Assert.Empty(_looks.Unsettled);
    }

    [Fact]
    public void A_folder_that_never_settles_is_accepted_after_five_seconds_as_it_is_then()
    {
        var looks = 0;
        for (; Look() is []; looks++)
        {
            Write(1, new('x', looks));
            _time.Advance(TimeSpan.FromMilliseconds(250));
        }

        Assert.Equal(20, looks - 1);
        Assert.NotNull(_situation.Find("bed")!.Folder);
    }

    [Fact]
    public void A_short_absence_withdraws_nothing_however_often_it_happens()
    {
        Settle();
        for (var i = 0; i < 30; i++)
        {
            Directory.Delete(Path.Combine(_root, "bed"), recursive: true);
            Assert.Empty(LookAfter(250));
            Assert.Empty(LookAfter(999));
            Write(1, "{}");
            Assert.Empty(LookAfter(250));
        }

        Directory.Delete(Path.Combine(_root, "bed"), recursive: true);
        Assert.Empty(LookAfter(250));
        Assert.Empty(LookAfter(999));
        Assert.Null(Assert.Single(LookAfter(1)).Is);
    }

    [Fact]
    public void A_folder_that_returns_to_its_accepted_state_is_not_a_change()
    {
        Settle();
        Write(1, "[]");
        Assert.Empty(LookAfter(250));
        Write(1, "{}");
        Assert.Empty(LookAfter(250));
        Assert.Empty(_looks.Unsettled);
    }

    [Fact]
    public void A_change_that_was_not_applied_is_offered_again_at_each_look()
    {
        Write(1, "{}");
        Assert.Empty(Look());
        _time.Advance(TimeSpan.FromMilliseconds(250));
        for (var i = 0; i < 3; i++)
        {
            Assert.Equal("bed", Assert.Single(LookAtAll()).Fixture); // Not applied: the ledger could not be written.
        }
    }

    [Fact]
    public void An_older_reading_that_an_adoption_used_is_corrected_by_the_next_looks()
    {
        Settle();
        Write(1, "[]");
        var older = FixtureFolder.Read(_root, "bed")!;
        Write(1, "{}");
        _situation = _situation.WithFolder(older);

        Look();
        Assert.Equal(["1"], Numbers(LookAfter(250)));
        Assert.True(_situation.Find("bed")!.Folder!.SameAs(FixtureFolder.Read(_root, "bed")));
    }

    [Fact]
    public void A_newer_reading_is_not_undone_by_a_look_that_was_earlier()
    {
        Settle();
        Write(1, "[]");
        Look();
        _time.Advance(TimeSpan.FromMilliseconds(250));
        var changes = LookAtAll();
        Write(1, "[0]");
        var newer = FixtureFolder.Read(_root, "bed")!;

        Assert.NotEmpty(changes);
        Assert.Same(newer, _situation.WithFolder(newer).WithChanges(changes).Find("bed")!.Folder);
    }

    [Fact]
    public void Without_visible_changes_each_folder_is_read_once_in_a_number_of_polls()
    {
        Settle();
        Look();
        _folders.Reads = 0;
        for (var i = 0; i < 20; i++)
        {
            Assert.Empty(LookAfter(2000));
        }

        Assert.Equal(4, _folders.Reads);
    }

    [Fact]
    public void Changed_bytes_that_do_not_show_in_the_listing_are_found_in_turn()
    {
        var path = Write(1, "{}");
        Settle();
        var changed = File.GetLastWriteTimeUtc(path);
        Write(1, "[]");
        File.SetLastWriteTimeUtc(path, changed);

        var found = Enumerable.Range(0, 6).Select(_ => LookAfter(2000)).Count(c => c.Count > 0);
        Assert.Equal(1, found);
    }

    [Fact]
    public void After_a_hint_the_folder_is_read_in_full()
    {
        var path = Write(1, "{}");
        Settle();
        var changed = File.GetLastWriteTimeUtc(path);
        Write(1, "[]");
        File.SetLastWriteTimeUtc(path, changed);

        LookAt("bed");
        Assert.Equal(["bed"], _looks.Unsettled);
    }

    [Fact]
    public void Files_that_were_read_before_are_not_parsed_again()
    {
        File.Copy(Path.Combine(Repository.Fixtures, "pinbed-1", "r0003.json"),
            Directory.CreateDirectory(Path.Combine(_root, "pinbed-1")).FullName + "/r0003.json");
        Settle("pinbed-1");
        var before = _situation.Find("pinbed-1")!.Folder!.Files[0];
        File.WriteAllText(Path.Combine(_root, "pinbed-1", "r0004.json"), "{");
        Settle("pinbed-1");

        Assert.Equal([3, 4], _situation.Find("pinbed-1")!.Folder!.Files.Select(f => f.Number));
        Assert.Same(before, _situation.Find("pinbed-1")!.Folder!.Files[0]);
    }

    private string Write(int number, string text)
    {
        var path = Path.Combine(Directory.CreateDirectory(Path.Combine(_root, "bed")).FullName, $"r{number:0000}.json");
        File.WriteAllText(path, text);
        return path;
    }

    private void Settle(string fixture = "bed")
    {
        if (fixture == "bed")
        {
            Write(1, "{}");
        }

        Look();
        Assert.Single(LookAfter(250));
        Assert.Empty(LookAfter(250));
        Assert.Empty(_looks.Unsettled);
    }

    private IReadOnlyList<FolderChange> LookAfter(int milliseconds)
    {
        _time.Advance(TimeSpan.FromMilliseconds(milliseconds));
        return Look();
    }

    /// <summary>A look whose changes the ledger takes.</summary>
    private IReadOnlyList<FolderChange> Look()
    {
        var changes = LookAtAll();
        _situation = _situation.WithChanges(changes);
        return changes;
    }

    private IReadOnlyList<FolderChange> LookAtAll() =>
        _looks.LookAtAll(_situation, _folders.Names(), CancellationToken.None).Within("the end of a look").GetAwaiter().GetResult();

    private void LookAt(string fixture) => _looks.LookAt(_situation, [fixture], CancellationToken.None).Within("the end of a look").GetAwaiter().GetResult();

    private static IEnumerable<string> Numbers(IReadOnlyList<FolderChange> changes) => Assert.Single(changes).Is!.Files.Select(f => $"{f.Number}");

    private sealed class Counted(IFolders folders) : IFolders
    {
        public int Reads { get; set; }

        public IReadOnlyList<string> Names() => folders.Names();

        public FolderStamp? Stamp(string fixture) => folders.Stamp(fixture);

        public FixtureFolder? Read(string fixture, params ReadOnlySpan<FixtureFolder?> known)
        {
            Reads++;
            return folders.Read(fixture, known);
        }
    }
}
