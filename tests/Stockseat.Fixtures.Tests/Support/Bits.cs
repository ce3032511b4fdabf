using System.Collections;
using System.Globalization;
using System.Reflection;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Fixtures.Tests.Support;

/// <summary>A value taken apart into its parts, doubles as bit patterns: two values are equal to the last bit when their parts are.</summary>
internal static class Bits
{
    public static List<string> Of(object value)
    {
        var parts = new List<string>();
        Add(parts, value.GetType().Name, value);
        return parts;
    }

    private static void Add(List<string> parts, string path, object? value)
    {
        switch (value)
        {
            case null:
                parts.Add($"{path} null");
                break;
            case double d:
                parts.Add(string.Create(CultureInfo.InvariantCulture, $"{path} {BitConverter.DoubleToInt64Bits(d):x16}"));
                break;
            case ReadOnlyMemory<byte> bytes:
                parts.Add($"{path} {Convert.ToHexString(bytes.Span)}");
                break;
            case string or int or bool or char or Enum:
                parts.Add(string.Create(CultureInfo.InvariantCulture, $"{path} {value}"));
                break;
            case IEnumerable list:
                foreach (var (index, item) in list.Cast<object>().Index())
                {
                    Add(parts, string.Create(CultureInfo.InvariantCulture, $"{path}[{index}]"), item);
                }

                break;
            default:
                var type = value.GetType();
                foreach (var member in type.GetProperties(BindingFlags.Public | BindingFlags.Instance))
                {
                    // What is calculated from a revision is not a part of what was read.
                    if (member.PropertyType != type && member.Name is not (nameof(Revision.Prepared) or nameof(Revision.IsPrepared)))
                    {
                        Add(parts, $"{path}.{member.Name}", member.GetValue(value));
                    }
                }

                foreach (var member in type.GetFields(BindingFlags.Public | BindingFlags.Instance))
                {
                    Add(parts, $"{path}.{member.Name}", member.GetValue(value));
                }

                break;
        }
    }
}
