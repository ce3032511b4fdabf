using System.Globalization;
using System.Text.Json;

namespace Stockseat.EndToEnd.Support;

/// <summary>Compares what a client received with what the ledger says.</summary>
internal static class Served
{
    private static readonly (string Body, string[] Names)[] Numbers =
    [
        ("position", ["x", "y", "z"]), ("orientation", ["qw", "qx", "qy", "qz"]), ("shiftBase", ["bx", "by", "bz"]), ("shiftOrigin", ["ox", "oy", "oz"]),
    ];

    /// <summary>Every number of the reply is the number in the body, rounded to the six decimals served.</summary>
    public static void Is(LineReply reply, JsonElement body)
    {
        Assert.Equal("answer", body.GetProperty("kind").GetString());
        Assert.Equal(reply.Serial, body.GetProperty("serial").GetInt64());
        Assert.Equal(reply["fixture"], body.GetProperty("fixture").GetString());
        Assert.Equal(reply["revision"], body.GetProperty("revision").GetRawText());
        Assert.Equal(reply["tag"], body.GetProperty("tag").GetString());
        Assert.Equal(reply["first"] == "yes", body.GetProperty("first").GetBoolean());
        Same(reply, "diameter", body.GetProperty("diameter"));
        foreach (var (name, parts) in Numbers)
        {
            var values = body.GetProperty(name);
            Assert.Equal(parts.Length, values.GetArrayLength());
            for (var i = 0; i < parts.Length; i++)
            {
                Same(reply, parts[i], values[i]);
            }
        }
    }

    private static void Same(LineReply reply, string name, JsonElement value)
    {
        var served = decimal.Parse(reply[name], CultureInfo.InvariantCulture);
        Assert.True(Math.Abs(served - value.GetDecimal()) <= 0.000_000_5m, $"{name}: {served} was served, {value.GetRawText()} is in the ledger");
    }
}
