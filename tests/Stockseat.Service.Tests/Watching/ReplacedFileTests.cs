using System.Text;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Watching;

/// <summary>Everything that may happen to files and folders while the service runs; after each case, a restart shows the same.</summary>
public sealed class ReplacedFileTests : IAsyncLifetime
{
    private static readonly string Four = Repository.Edit(Repository.Pins, "\"revision\": 3", "\"revision\": 4");

    private Watched _watched = null!;

    public static TheoryData<string, byte[], string> Strange => new()
    {
        { "NUL bytes", new byte[4096], "is not JSON" },
        { "NUL bytes after the whole", [.. Encoding.UTF8.GetBytes(Four), 0, 0], "is not JSON" },
        { "invalid UTF-8", [.. Encoding.UTF8.GetBytes(Four.Replace("bed", "b\u0001d", StringComparison.Ordinal)).Select(b => b == 1 ? (byte)0xff : b)], "" },
        { "UTF-16", Encoding.Unicode.GetBytes(Four), "is not JSON" },
        { "nothing", [], "" },
        { "2 MB", [.. Encoding.UTF8.GetBytes(Four.PadRight(2_000_000))], "has 2000000 bytes; at most 1048576 are allowed" },
    };

    public async ValueTask InitializeAsync() => _watched = await Watched.Start();

    public ValueTask DisposeAsync() => _watched.DisposeAsync();

    [Theory]
    [MemberData(nameof(Strange))]
    public async Task A_strange_file_is_faulty_and_a_good_one_in_its_place_waits(string what, byte[] bytes, string fault)
    {
        File.WriteAllBytes(_watched.Path(4), bytes);
        await _watched.UntilState(4, RevisionState.Faulty);
        Assert.True((await _watched.List())[3].Faults.Any(f => f.Contains(fault, StringComparison.Ordinal)), what);
        await Serves("3");
        await SameAfterRestart();

        File.WriteAllText(_watched.Path(4), Four);
        await _watched.UntilState(4, RevisionState.Waiting);
        await _watched.Logged("no longer has a faulty file");
        Assert.True(await _watched.Shown() is { Faults.Count: 0 });
    }

    [Fact]
    public async Task A_byte_order_mark_is_skipped()
    {
        File.WriteAllBytes(_watched.Path(4), [.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(Four)]);
        await _watched.UntilState(4, RevisionState.Waiting);
        await Serves("3");
        await SameAfterRestart();
    }

    [Fact]
    public async Task A_file_in_force_that_reads_differently_refuses_asks_until_it_is_restored()
    {
        _watched.Bench.WritePins(3, edits: ("\"spacing\": \"60 mm\"", "\"spacing\": \"61 mm\""));
        await _watched.UntilRefused("revision-changed");
        await Refuses("revision-changed");
        await _watched.Logged("refuses all asks: \"revision-changed\"");
        Assert.Single(await _watched.Entries("revision-rejected"));
        await SameAfterRestart();

        _watched.Bench.WritePins(3);
        await _watched.UntilRefused("");
        await Serves("3");
        await _watched.Logged("is restored");
        await SameAfterRestart();
    }

    [Fact]
    public async Task A_file_in_force_that_is_written_with_other_spaces_or_comments_changes_nothing()
    {
        File.WriteAllText(_watched.Path(3), Repository.Pins.Replace("\n", "\n\n", StringComparison.Ordinal) + "// checked\n");
        _watched.Bench.WritePins(4);
        await _watched.UntilState(4, RevisionState.Waiting);

        await Serves("3");
        Assert.Equal(RevisionState.InForce, (await _watched.List())[2].State);
        Assert.Empty(await _watched.Entries("revision-rejected"));
    }

    [Fact]
    public async Task A_folder_that_is_removed_withdraws_its_fixture_until_it_is_back()
    {
        var (here, away) = (_watched.Folder(), Path.Combine(_watched.Bench.Folder, "away"));
        Directory.Move(here, away);
        await _watched.UntilRefused("fixture-withdrawn");
        await Refuses("fixture-withdrawn");
        await Serves("2", "rollers-3");
        await SameAfterRestart();

        Directory.Move(away, here);
        await _watched.UntilRefused("");
        await Serves("3");
        await SameAfterRestart();
    }

    [Fact]
    public async Task The_folder_of_all_fixtures_may_be_removed_and_come_back()
    {
        var (here, away) = (Path.GetDirectoryName(_watched.Folder())!, Path.Combine(_watched.Bench.Folder, "away"));
        Directory.Move(here, away);
        await _watched.UntilRefused("fixture-withdrawn", "veerack-2");
        await _watched.UntilRefused("fixture-withdrawn");
        await SameAfterRestart();

        Directory.Move(away, here);
        await _watched.UntilRefused("");
        await _watched.UntilRefused("", "veerack-2");
        _watched.Bench.WritePins(4);
        await _watched.UntilState(4, RevisionState.Waiting);
    }

    [Fact]
    public async Task A_new_fixture_that_is_removed_before_anything_was_adopted_is_forgotten()
    {
        Directory.CreateDirectory(_watched.Folder("pinbed-8"));
        await _watched.Until(async () => await _watched.Shown("pinbed-8") is not null, "a fixture from the empty folder");
        await SameAfterRestart();

        Directory.Delete(_watched.Folder("pinbed-8"));
        await _watched.Until(async () => await _watched.Shown("pinbed-8") is null, "the end of the new fixture");
        await SameAfterRestart();
    }

    [Fact]
    public async Task A_file_that_is_deleted_and_made_again_is_read_with_its_new_content()
    {
        _watched.Bench.WritePins(4);
        await _watched.UntilState(4, RevisionState.Waiting);
        var first = (await _watched.List())[3].Digest;
        File.Delete(_watched.Path(4));
        await _watched.Until(async () => (await _watched.List()).Count == 3, "revision 4 is gone");
        await SameAfterRestart();

        _watched.Bench.WritePins(4, edits: ("\"spacing\": \"60 mm\"", "\"spacing\": \"61 mm\""));
        await _watched.UntilState(4, RevisionState.Waiting);
        Assert.NotEqual(first, (await _watched.List())[3].Digest);
        await _watched.Logged("revision 4 waits", times: 2);

        File.Delete(_watched.Path(3));
        await _watched.Until(async () => !Directory.EnumerateFiles(_watched.Folder()).Contains(_watched.Path(3)) && (await _watched.Shown())!.Refused == "",
            "it is gone");
        await Serves("3");
        await SameAfterRestart();
    }

    [Fact]
    public async Task A_file_that_is_renamed_over_another_replaces_it()
    {
        _watched.Bench.WritePins(4);
        await _watched.UntilState(4, RevisionState.Waiting);
        var before = (await _watched.List())[3].Digest;
        var beside = _watched.Bench.Write("fixtures/pinbed-1/r0004.json.new", Repository.Edit(Four, "\"spacing\": \"60 mm\"", "\"spacing\": \"62 mm\""));
        File.Move(beside, _watched.Path(4), overwrite: true);

        await _watched.Until(async () => (await _watched.List())[3] is { State: RevisionState.Waiting } r && r.Digest != before, "the other digest");
        await Serves("3");
        await SameAfterRestart();
    }

    [Fact]
    public async Task Two_files_that_change_places_are_faulty_and_the_revision_in_force_is_still_served()
    {
        _watched.Bench.WritePins(4);
        await _watched.UntilState(4, RevisionState.Waiting);
        Swap(_watched.Path(3), _watched.Path(4));
        await _watched.UntilState(4, RevisionState.Faulty);

        var (three, four) = ((await _watched.List())[2], (await _watched.List())[3]);
        Assert.Equal((RevisionState.InForce, 1, 1), (three.State, three.Faults.Count, four.Faults.Count));
        Assert.Contains("the number in the name of the file", four.Faults[0], StringComparison.Ordinal);
        await Serves("3");
        await SameAfterRestart();

        Swap(_watched.Path(3), _watched.Path(4));
        await _watched.UntilState(4, RevisionState.Waiting);
        Assert.Empty((await _watched.Shown())!.Faults);
    }

    [Fact]
    public async Task Two_folders_that_change_places_are_faulty_and_both_fixtures_are_still_served()
    {
        Swap(_watched.Folder(), _watched.Folder("rollers-3"));
        await _watched.Until(async () => (await _watched.Shown())!.Faults.Count > 0 && (await _watched.Shown("rollers-3"))!.Faults.Count > 0, "faults of both");

        Assert.All((await _watched.Shown())!.Faults, f => Assert.Contains("the name of its folder", f, StringComparison.Ordinal));
        await Serves("3");
        await Serves("2", "rollers-3");
        await SameAfterRestart();

        Swap(_watched.Folder(), _watched.Folder("rollers-3"));
        await _watched.Until(async () => (await _watched.Shown())!.Faults.Count == 0 && (await _watched.Shown("rollers-3"))!.Faults.Count == 0, "no faults");
    }

    [Fact]
    public async Task A_file_full_of_faults_is_reported_the_same_everywhere_and_briefly()
    {
        var bytes = Encoding.UTF8.GetBytes($"{{ {string.Join(", ", Enumerable.Range(0, 60_000).Select(i => $"\"k{i}\": 1"))} }}");
        await File.WriteAllBytesAsync(_watched.Path(4), bytes, TestContext.Current.CancellationToken);
        await _watched.UntilRejected(bytes, after: 0);

        var entry = Assert.Single(await _watched.Entries("revision-rejected"));
        var faults = entry.GetProperty("faults").EnumerateArray().Select(f => f.GetString()!).ToList();
        Assert.Equal(51, faults.Count);
        Assert.Matches("r0004.json: and (59|60)[0-9]{3} more faults$", faults[50]);
        Assert.InRange(entry.GetRawText().Length, 1_000, 40_000);
        Assert.Equal(faults, (await _watched.List())[3].Faults);
        await _watched.Until(async () => (await _watched.Shown())!.Faults.Count > 0, "it shows");
        Assert.Equal(faults, (await _watched.Shown())!.Faults.Take(50).Append(faults[50]));
        await _watched.Logged("has a faulty file", times: 51);
        Assert.Equal(51, _watched.Log.Count(l => l.Contains("has a faulty file", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task A_file_that_is_replaced_by_a_folder_is_faulty()
    {
        _watched.Bench.WritePins(4);
        await _watched.UntilState(4, RevisionState.Waiting);
        File.Delete(_watched.Path(4));
        Directory.CreateDirectory(_watched.Path(4));
        await _watched.UntilState(4, RevisionState.Faulty);

        await Serves("3");
        await SameAfterRestart();
    }

    [Fact]
    public async Task A_link_is_followed_to_the_current_content_of_its_target()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows lets only some users make links");
        var target = _watched.Bench.Write("elsewhere.json", Four);
        File.CreateSymbolicLink(_watched.Path(4), target);
        await _watched.UntilState(4, RevisionState.Waiting);

        File.WriteAllText(target, Four[..100]);
        await _watched.UntilState(4, RevisionState.Faulty);
        File.Delete(target);
        await _watched.Until(async () => (await _watched.List())[3].Faults[0].Contains("can't be read", StringComparison.Ordinal), "a link to nowhere");
        await Serves("3");
        await SameAfterRestart();
    }

    [Fact]
    public async Task A_file_that_may_not_be_read_is_faulty()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows() || Environment.IsPrivilegedProcess, "root may read everything");
        _watched.Bench.WritePins(4);
        await _watched.UntilState(4, RevisionState.Waiting);
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(_watched.Path(4), UnixFileMode.None);
        }

        File.SetLastWriteTimeUtc(_watched.Path(4), new(2026, 1, 1, 0, 0, 0, DateTimeKind.Utc)); // the listing does not show who may read the file
        await _watched.UntilState(4, RevisionState.Faulty);
        await Serves("3");
    }

    private static void Swap(string one, string other)
    {
        Directory.Move(one, one + ".away");
        Directory.Move(other, one);
        Directory.Move(one + ".away", other);
    }

    private async Task<string> Ask(string fixture)
    {
        using var line = await _watched.Bench.Line();
        return await line.Ask($"locate fixture={fixture} diameter=92.40mm");
    }

    private async Task Serves(string revision, string fixture = "pinbed-1") => Assert.Equal(revision, LineClient.Value(await Ask(fixture), "revision"));

    private async Task Refuses(string reason) => Assert.Equal(reason, LineClient.Value(await Ask("pinbed-1"), "reason"));

    private async Task SameAfterRestart()
    {
        var (before, rejected) = (await _watched.All(), (await _watched.Entries("revision-rejected")).Count);
        await _watched.Bench.Restart();
        Assert.Equal(before, await _watched.All());
        Assert.Equal(rejected, (await _watched.Entries("revision-rejected")).Count);
    }
}
