using System.Text.Json;

namespace Stockseat.Seating.Tests.Published;

/// <summary>The rows of intrinsic-zyx.json.</summary>
public static class IntrinsicZyx
{
    private static readonly Table Read = JsonSerializer.Deserialize<Table>(
        File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Published", "intrinsic-zyx.json")), JsonSerializerOptions.Web)!;

    public static TheoryData<int> Numbers => new(Enumerable.Range(0, Read.Rows.Length));

    public static Row Of(int number) => Read.Rows[number];

    public sealed record Row(double[] ZyxDegrees, double[] Quaternion, double[][] Matrix, double[] RotationVector);

    private sealed record Table(Row[] Rows);
}
