using System.Globalization;
using System.Text;
using System.Text.Json;
using Stockseat.Fixtures.Revisions;
using Stockseat.Fixtures.Tests.Support;

namespace Stockseat.Fixtures.Tests.Revisions;

public sealed class FixtureFolderTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public static TheoryData<string, string, string> Sha256
    {
        get
        {
            var rows = new TheoryData<string, string, string>();
            var published = JsonDocument.Parse(Repository.Published("sha256.json")).RootElement;
            foreach (var v in published.GetProperty("vectors").EnumerateArray())
            {
                rows.Add(
                    v.GetProperty("name").GetString()!, v.TryGetProperty("hex", out var hex) ? hex.GetString()!
                        : Convert.ToHexString(Encoding.ASCII.GetBytes(new string('a', 1_000_000))), v.GetProperty("digest").GetString()!);
            }

            foreach (var v in published.GetProperty("boundaries").GetProperty("digests").EnumerateObject())
            {
                var count = int.Parse(v.Name, CultureInfo.InvariantCulture);
                rows.Add($"{count} bytes", Convert.ToHexString([.. Enumerable.Range(0, count).Select(i => (byte)i)]), v.Value.GetString()!);
            }

            return rows;
        }
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void The_demo_folders_read_completely()
    {
        var all = FixtureFolder.ReadAll(Repository.Fixtures);

        Assert.Equal(["pinbed-1", "rollers-3", "veerack-2"], all.Select(f => f.Fixture));
        Assert.Equal([1, 2, 3], all[0].Files.Select(f => f.Number));
        Assert.All(all, f => Assert.Empty(f.Faults));
        Assert.All(all.SelectMany(f => f.Files), f => Assert.Empty(f.Reading.Faults));
    }

    [Fact]
    public void Files_come_in_the_order_of_their_numbers()
    {
        int[] numbers = [999999, 10000, 9999, 10, 2, 1];
        Array.ForEach(numbers, n => _folder.WritePins(n));

        var folder = Read()!;

        Assert.Equal(numbers.Reverse(), folder.Files.Select(f => f.Number));
        Assert.All(folder.Files, f => Assert.Equal(f.Number, f.Reading.Revision!.Number));
        Assert.Equal(10, folder.Find(10)!.Number);
        Assert.Null(folder.Find(3));
    }

    [Fact]
    public void A_file_name_that_no_revision_can_have_is_a_fault_of_the_folder()
    {
        string[] wrong =
        [
            "r1.json", "r001.json", "r00001.json", "r0000.json", "r1000000.json", "r-001.json", "r+001.json", "R0001.json", "r0001 .json", "r0001a.json",
            "r٠٠٠١.json", "rev0001.json", "0001.json", ".json",
        ];
        Array.ForEach(wrong, name => _folder.Write($"pinbed-1/{name}", TemporaryFolder.Pins(1)));
        _folder.WritePins(2);
        _folder.Write("pinbed-1/r0003.json.bak", "");
        _folder.Write("pinbed-1/readme.txt", "");
        Directory.CreateDirectory(Path.Combine(_folder.Path, "pinbed-1", "r0004"));

        var folder = Read()!;

        Assert.Equal([2], folder.Files.Select(f => f.Number));
        Assert.Equal(
            wrong.Select(
                name => $"{Path.Combine(_folder.Path, "pinbed-1", name)}: a revision's file is named r0001.json, r0002.json and so on; rename it or move "
                    + "it away").Order(), folder.Faults.Order());
    }

    [Fact]
    public void One_broken_file_does_not_affect_the_others()
    {
        _folder.WritePins(1);
        var broken = _folder.Write("pinbed-1/r0002.json", TemporaryFolder.Pins(2)[..400]);
        var moved = _folder.Write("pinbed-1/r0003.json", TemporaryFolder.Pins(1, "pinbed-9"));
        _folder.WritePins(4);

        var files = Read()!.Files;

        Assert.Equal([true, false, false, true], files.Select(f => f.Reading.Revision is not null));
        Assert.StartsWith($"{broken}: is not JSON", Assert.Single(files[1].Reading.Faults), StringComparison.Ordinal);
        Assert.Equal([$"{moved}: fixture", $"{moved}: revision"], files[2].Reading.Faults.Select(f => f[..f.IndexOf(": is", StringComparison.Ordinal)]));
    }

    [Fact]
    public void A_missing_or_badly_named_folder_is_not_a_fixture()
    {
        _folder.WritePins(1);
        _folder.Write("Pinbed-2/r0001.json", TemporaryFolder.Pins(1));
        _folder.Write("a-file", "");

        Assert.NotNull(Read());
        Assert.Null(FixtureFolder.Read(_folder.Path, "pinbed-2"));
        Assert.Null(FixtureFolder.Read(_folder.Path, "Pinbed-2"));
        Assert.Null(FixtureFolder.Read(_folder.Path, ".."));
        Assert.Null(FixtureFolder.Read(_folder.Path, "a-file"));
        Assert.Null(FixtureFolder.Read(Path.Combine(_folder.Path, "nowhere"), "pinbed-1"));
        Assert.Empty(FixtureFolder.ReadAll(Path.Combine(_folder.Path, "nowhere")));
        Assert.Equal(["pinbed-1"], FixtureFolder.ReadAll(_folder.Path).Select(f => f.Fixture));
    }

    [Fact]
    public void An_empty_folder_is_a_fixture_without_revisions()
    {
        Directory.CreateDirectory(Path.Combine(_folder.Path, "pinbed-1"));

        Assert.Empty(Read()!.Files);
        Assert.Empty(Read()!.Faults);
    }

    [Fact]
    public void A_locked_file_is_a_fault_of_that_file()
    {
        _folder.WritePins(2);
        var path = _folder.WritePins(1);
        using var held = new FileStream(path, FileMode.Open, FileAccess.ReadWrite, FileShare.None);

        var files = Read()!.Files;

        Assert.StartsWith($"{path}: can't be read: ", Assert.Single(files[0].Reading.Faults), StringComparison.Ordinal);
        Assert.Equal("", files[0].FileHash);
        Assert.NotNull(files[1].Reading.Revision);
    }

    [Fact]
    public void A_link_to_a_missing_file_is_a_fault_of_that_file()
    {
        _folder.WritePins(2);
        var path = Path.Combine(_folder.Path, "pinbed-1", "r0001.json");
        try
        {
            File.CreateSymbolicLink(path, Path.Combine(_folder.Path, "nowhere"));
        }
        catch (Exception e) when (OperatingSystem.IsWindows() && e is IOException or UnauthorizedAccessException)
        {
            Assert.Skip("links can not be made on this machine");
        }

        var files = Read()!.Files;

        Assert.StartsWith($"{path}: can't be read: ", Assert.Single(files[0].Reading.Faults), StringComparison.Ordinal);
        Assert.NotNull(files[1].Reading.Revision);
    }

    [Fact]
    public async Task A_folder_that_is_removed_during_a_reading_is_either_read_or_missing()
    {
        _folder.WritePins(1);
        var (here, away) = (Path.Combine(_folder.Path, "pinbed-1"), Path.Combine(_folder.Path, "away"));
        using var stop = new CancellationTokenSource();
        var moves = 0;
        var moving = Task.Factory.StartNew(
            () =>
            {
                for (; !stop.IsCancellationRequested; Interlocked.Increment(ref moves))
                {
                    Directory.Move(here, away);
                    Directory.Move(away, here);
                }
            },
            CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);

        try
        {
            for (var i = 0; i < 3_000 || (Volatile.Read(ref moves) <= 100 && !moving.IsCompleted); i++)
            {
                Assert.All(Read()?.Files ?? [], file => Assert.True(
                    file.Reading.Revision is not null || file.Reading.Faults is [var fault] && fault.Contains("can't be read", StringComparison.Ordinal)));
            }
        }
        finally
        {
            await stop.CancelAsync();
            await moving.Within("the end of the moves");
        }

        Assert.True(moves > 100);
    }

    [Theory]
    [InlineData(0, true)]
    [InlineData(1, false)]
    public void A_file_of_up_to_a_mebibyte_is_read(int beyond, bool isRead)
    {
        var path = _folder.Write("pinbed-1/r0001.json", TemporaryFolder.Pins(1).PadRight((1 << 20) + beyond));
        Assert.Equal((1 << 20) + beyond, new FileInfo(path).Length);

        var reading = Assert.Single(Read()!.Files).Reading;

        Assert.Equal(isRead, reading.Revision is not null);
        Assert.Equal(isRead ? [] : [$"{path}: has 1048577 bytes; at most 1048576 are allowed"], reading.Faults);
    }

    [Theory]
    [MemberData(nameof(Sha256))]
    public void A_file_has_the_published_hash_of_its_bytes(string name, string hex, string digest)
    {
        _folder.Write("pinbed-1/r0001.json", Convert.FromHexString(hex));

        var file = Assert.Single(Read()!.Files);

        Assert.True(digest == file.FileHash, name);
        Assert.NotEmpty(file.Reading.Faults);
    }

    private FixtureFolder? Read() => FixtureFolder.Read(_folder.Path, "pinbed-1");
}
