using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>What fixture check says that a file means in base, against a script that works it out from the documents alone.</summary>
public abstract class StatementTests(Build build) : OnBothBuilds(build)
{
    private const string Script = "state_fixtures.py";

    public sealed class Ordinary() : StatementTests(Build.Ordinary);

    public sealed class Native() : StatementTests(Build.Native);

    [Fact]
    public async Task What_a_file_means_in_base_is_what_an_independent_script_works_out()
    {
        using var cell = new Cell();
        var names = (await Python.Run(Script, "make", cell.Folder)).Exits(0).Out.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        foreach (var name in names)
        {
            var check = await Program.Run("fixture", "check", Path.Combine(cell.Folder, name, "r0001.json"), "--unit", "mm");
            cell.Write($"{name}/check.txt", check.Exits(0).Out);
        }

        var compared = (await Python.Run(Script, "compare", cell.Folder)).Exits(0).Object;
        Assert.Equal("[]", compared.GetProperty("differs").GetRawText());
        Assert.True(compared.GetProperty("compared").GetInt32() > 30 * names.Length);

        // What was printed of the mirrored pins, taken for what was printed of the right ones, differs: the script does compare.
        cell.Write("unequal-level/check.txt", await File.ReadAllTextAsync(Path.Combine(cell.Folder, "unequal-mirrored", "check.txt")));
        Assert.Contains(
            "unequal-level: the movement, x is ", (await Python.Run(Script, "compare", cell.Folder)).Exits(0).Object.GetProperty("differs").GetRawText());
    }
}
