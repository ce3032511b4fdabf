using System.Text.RegularExpressions;
using Stockseat.EndToEnd.Support;

namespace Stockseat.EndToEnd;

/// <summary>Assemblies that may have code that the native compiler can't follow. Any other warning could mean a failure at run time.</summary>
public partial class PublishLogTests
{
    // DEVELOPERS.md says why.
    private static readonly string[] Allowed = ["Grpc.AspNetCore.Server.Reflection"];

    [Fact]
    public void NativePublish_WarnsAboutTheAllowedAssembliesAndNothingElse()
    {
        var file = Path.Combine(Built.Native.Folder, "publish.log");
        Assert.SkipUnless(File.Exists(file), "there is no publish.log beside the native program: tests/run writes it");

        var log = File.ReadAllText(file);

        // A compiler that did not run gives no warnings.
        Assert.Contains("Generating native code", log, StringComparison.Ordinal);
        Assert.Equal(Allowed, Warnings(log));
    }

    [Fact]
    public void EachAllowedAssembly_IsNamedInDevelopers()
    {
        var page = File.ReadAllText(Path.Combine(Repository.Root, "DEVELOPERS.md"));

        Assert.All(Allowed, name => Assert.Contains($"`{name}`", page, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("a.dll : warning IL2104: Assembly 'Grpc.AspNetCore.Server.Reflection' produced trim warnings.", "Grpc.AspNetCore.Server.Reflection")]
    [InlineData("a.dll : warning IL2104: Assembly 'Other' produced trim warnings.", "Other")]
    [InlineData("a.dll : warning IL3053: Assembly 'Grpc.AspNetCore.Server.Reflection' produced AOT analysis warnings.")]
    [InlineData("ILC : Trim analysis warning IL2026: Some.Member: Using member")]
    [InlineData("ld: warning: something is odd")]
    [InlineData("CSC : warning CS0168: The variable is declared but never used")]
    public void AWarning_IsFound(string line, string? assembly = null) =>
        Assert.Equal([assembly ?? line], Warnings($"  Generating native code\n{line}\n{line}\n    1 Warning(s)\n"));

    /// <summary>The assemblies with trim warnings, each once; and every other warning in full.</summary>
    private static List<string> Warnings(string log) =>
        [
            .. log.Split('\n', StringSplitOptions.TrimEntries).Where(l => Warning().IsMatch(l))
            .Select(l => Trim().Match(l) is { Success: true } m ? m.Groups["assembly"].Value : l).Distinct().Order(StringComparer.Ordinal),
        ];

    [GeneratedRegex(@"\bwarning\b\s*\w*\s*:")]
    private static partial Regex Warning();

    [GeneratedRegex(@"\bwarning IL2104: Assembly '(?<assembly>[^']+)' produced trim warnings")]
    private static partial Regex Trim();
}
