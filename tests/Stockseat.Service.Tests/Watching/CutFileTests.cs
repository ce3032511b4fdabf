using System.Text;
using Stockseat.Service.Tests.Support;
using Stockseat.V1;

namespace Stockseat.Service.Tests.Watching;

/// <summary>A file that was left half-written, at any length, changes no answer.</summary>
public sealed class CutFileTests
{
    private static readonly bool Long = Environment.GetEnvironmentVariable("STOCKSEAT_LONG") == "1";

    [Theory]
    [InlineData(3)]
    [InlineData(4)]
    public async Task A_file_that_is_cut_at_any_byte_shows_as_faulty_and_changes_no_answer(int number)
    {
        await using var watched = await Watched.Start();
        var whole = Encoding.UTF8.GetBytes(Repository.Edit(Repository.Pins, "\"revision\": 3", $"\"revision\": {number}"));
        var controller = await Controller.Start(watched.Bench);
        var path = watched.Path(number);

        foreach (var length in Lengths(whole))
        {
            var serial = await watched.Serial();
            File.WriteAllBytes(path, whole[..length]);
            await watched.UntilRejected(whole[..length], serial);
            var shown = (await watched.List()).Single(r => r.Revision == number);
            Assert.NotEmpty(shown.Faults);
            Assert.Equal(number == 3 ? RevisionState.InForce : RevisionState.Faulty, shown.State);
            await controller.More(2); // The second answer was asked for beside the broken file.
        }

        File.WriteAllBytes(path, whole);
        await watched.UntilState(number, number == 3 ? RevisionState.InForce : RevisionState.Waiting);
        await watched.Until(async () => (await watched.Shown())!.Faults.Count == 0, "the end of the faults");
        var replies = await controller.Stop();

        Assert.All(replies, r => Assert.Equal(("ok", "3", BedPick.By), (r.Split(' ')[0], LineClient.Value(r, "revision"), LineClient.Value(r, "by"))));
        Assert.Empty(await watched.Entries("refusal"));
        Assert.Equal(3, (await watched.Entries("revision-adopted")).Count);
        Assert.All(await watched.Entries("answer"), a => Assert.Equal(3, a.GetProperty("revision").GetInt32()));
    }

    [Fact]
    public async Task A_file_that_is_complete_before_the_folder_has_settled_was_never_faulty()
    {
        await using var watched = await Watched.Start();
        var whole = Repository.Edit(Repository.Pins, "\"revision\": 3", "\"revision\": 4");
        for (var length = 0; length < whole.Length; length += 100)
        {
            File.WriteAllText(watched.Path(4), whole[..length]);
        }

        File.WriteAllText(watched.Path(4), whole);
        await watched.UntilState(4, RevisionState.Waiting);

        Assert.Empty(await watched.Entries("revision-rejected"));
        Assert.Contains("Fixture pinbed-1: revision 4 waits to be adopted", watched.Log.Select(l => l.Replace("\"", "", StringComparison.Ordinal)));
    }

    /// <summary>Every length in the long form; in the short form every 23rd, and those around the end of each line.</summary>
    private static IEnumerable<int> Lengths(byte[] whole) => Enumerable.Range(0, whole.AsSpan().TrimEnd("\r\n"u8).Length)
        .Where(i => Long || i % 23 == 0 || i == 1 || (i > 0 && (whole[i] == '\n' || whole[i - 1] == '\n')));
}
