using System.Reflection;

namespace Stockseat.Answers.Entries;

/// <summary>The program's version, as entries and reports state it.</summary>
public static class ProgramVersion
{
    /// <summary>Its text, such as 1.2.3.</summary>
    public static string Text { get; } =
        typeof(ProgramVersion).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion.Split('+')[0] ?? "0";
}
