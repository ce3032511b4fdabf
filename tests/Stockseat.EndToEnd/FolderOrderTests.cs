using Stockseat.EndToEnd.Sources;

namespace Stockseat.EndToEnd;

/// <summary>What the folder test finds in an invented project: Low, then Middle, then High.</summary>
public class FolderOrderTests
{
    private static readonly (string Path, string Text)[] Good =
    [
        ("Low/Part.cs", "namespace Made.Low;\n\ninternal sealed class Part { public int Tool { get; set; } }"),
        ("Low/Parts.cs", "namespace Made.Low;\n\ninternal static class Parts { public static int Twice(this int one) => 2 * one; }"),
        ("Middle/Tool.cs", "using Made.Low;\n\nnamespace Made.Middle;\n\ninternal sealed record Tool(Part Part);\ninternal enum Kind { Part, Cell }"),
        ("High/Cell.cs", "using Made.Low;\nusing Made.Middle;\n\nnamespace Made.High;\n\ninternal class Cell { private Tool _tool = new(new Part()); }"),
        ("Start.cs", "using Made.High;\n\nvar cell = new Cell();"),
    ];

    [Fact]
    public void FoldersInTheirOrder_HaveNoFault() => Assert.Equal([], Faults(Good));

    [Theory]
    [InlineData("internal class Back { private Made.Middle.Tool? _tool; }", "Tool", "Middle")]
    [InlineData("internal class Back { private Middle.Tool? _tool; }", "Tool", "Middle")]
    [InlineData("internal class Back : List<Middle.Tool>;", "Tool", "Middle")]
    [InlineData("/// <summary>As a <see cref=\"Middle.Tool\"/> has it.</summary>\ninternal class Back;", "Tool", "Middle")]
    [InlineData("internal class Back { string _text = $\"{{{new High.Cell():0.0}}}\"; }", "Cell", "High")]
    [InlineData("internal class Back { string _text = $$\"\"\"{ \"a\": {{nameof(High.Cell)}} }\"\"\"; }", "Cell", "High")]
    [InlineData("internal class Back { string _text = $@\"C:\\{(_one ? \"x\" : High.Cell.Name)}\"; }", "Cell", "High")]
    [InlineData("internal class Back { char _c = '\"'; High.Cell? _cell; char _d = '\\''; }", "Cell", "High")]
    public void DependencyAgainstTheOrder_IsFound(string text, string type, string folder)
    {
        var fault = Assert.Single(Faults([.. Good, ("Low/Back.cs", $"namespace Made.Low;\n\n{text}")]));

        Assert.Matches($@"^Made/Low/Back\.cs:[34]: Low uses {type} of {folder}, which", fault);
    }

    [Theory]
    [InlineData("using Made.Middle;\n\nnamespace Made.Low;\n\ninternal class Back { private Tool? _tool; }", 5, "Tool")]
    [InlineData("using Made.Middle;\n\nnamespace Made.Low;\n\n/* as it is */ internal class Back;", 1, "Made.Middle")]
    [InlineData("using Short = Made.Middle.Tool;\n\nnamespace Made.Low;\n\ninternal class Back(Short tool);", 5, "Tool")]
    [InlineData("using static Made.Middle.Tool;\n\nnamespace Made.Low;\n\ninternal class Back;", 1, "Made.Middle.Tool")]
    public void DependencyAgainstTheOrderByUsing_IsFound(string text, int line, string type) =>
        Assert.Equal([$"Made/Low/Back.cs:{line}: Low uses {type} of Middle, which the order does not allow"], Faults([.. Good, ("Low/Back.cs", text)]));

    [Theory]
    [InlineData("// High.Cell\ninternal class Fine;")]
    [InlineData("/// <summary>Not a High.Cell.</summary>\ninternal class Fine;")]
    [InlineData("internal class Fine { string _text = \"High.Cell\"; string _raw = \"\"\"\n a \"High.Cell\" \n\"\"\"; string _path = @\"\\\"; }")]
    [InlineData("internal class Fine { string _text = $\"High.Cell {{High.Cell}} {1:High.Cell}\"; }")]
    [InlineData("internal class Fine { int Cell => new Part().Tool; }")]
    [InlineData("internal enum Fine { Cell, Tool }")]
    public void TextThatOnlyLooksLikeADependency_IsIgnored(string text) =>
        Assert.Equal([], Faults([.. Good, ("Low/Fine.cs", $"namespace Made.Low;\n\n{text}")]));

    [Fact]
    public void FolderThatTheOrderLacks_IsFound() =>
        Assert.Contains("Made: the folder New is not in its order", Faults([.. Good, ("New/One.cs", "namespace Made.New;\n\ninternal class One;")]));

    [Fact]
    public void FolderThatDoesNotExist_IsFound() =>
        Assert.Contains("Made: the folder Middle of its order does not exist", Faults([.. Good.Where(f => f.Path != "Middle/Tool.cs")]));

    [Fact]
    public void FoldersOfOneStep_MayNotUseEachOther() =>
        Assert.Contains("Made/Middle/Tool.cs:5: Middle uses Part of Low, which the order does not allow", Faults(Good[..^1], "Made: Low, Middle < High"));

    [Fact]
    public void Order_IsMadeFromTheDependencies() => Assert.Equal("Made: Low < Middle < High < (root)", FolderOrder.Of(new("Made", "Made", Good)));

    [Fact]
    public void Circle_HasNoOrder() =>
        Assert.Null(FolderOrder.Of(new("Made", "Made", [.. Good, ("Low/Back.cs", "namespace Made.Low;\n\ninternal class Back(High.Cell cell);")])));

    private static IEnumerable<string> Faults(IEnumerable<(string Path, string Text)> files, string order = "Made: Low < Middle < High < (root)") =>
        FolderOrder.Read(["# how it is", order])["Made"].Faults(new("Made", "Made", files));
}
