using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Stockseat.Ledger.Verifying;

namespace Stockseat.Ledger.Tests.Verifying;

/// <summary>
/// Bodies that no writer wrote, with a right hash: the verdict is that of the framework's JSON reader, whichever way a body is read.
/// </summary>
public sealed class ForgedBodyTests
{
    private const int Serial = 7;
    private const int Cases = 400;
    private static readonly string[] Columns = ["v", "serial", "at", "kind", "fixture", "revision", "client", "tag"];

    [Theory]
    [InlineData("01")]
    [InlineData("-01")]
    [InlineData("1.")]
    [InlineData(".5")]
    [InlineData("-")]
    [InlineData("+1")]
    [InlineData("1e")]
    [InlineData("1.5E+")]
    [InlineData("1.e5")]
    [InlineData("1.2.3")]
    [InlineData("0123456789012345678901234567890123456789")]
    [InlineData("123456789012345678901234567890.")]
    [InlineData("tru")]
    [InlineData("truee")]
    [InlineData("nul")]
    [InlineData("")]
    [InlineData("[1,]")]
    [InlineData("[,1]")]
    [InlineData("[1 2]")]
    [InlineData("[1}")]
    [InlineData("{\"a\"}")]
    [InlineData("{\"a\":1,}")]
    [InlineData("{1:2}")]
    [InlineData("{\"a\":1]")]
    [InlineData("\"a\u0001b\"")]
    [InlineData("\"a\\xb\"")]
    [InlineData("\"a")]
    [InlineData("1,\"kind\":\"answer\"")]
    [InlineData("1,\"v\":2")]
    [InlineData("1,\"v\":2,\"v\":2")]
    public async Task A_value_that_is_not_JSON_or_a_repeated_column_is_a_fault_of_the_body_wherever_it_is(string value)
    {
        using var ledger = await Begun();
        foreach (var body in WithValue(ledger, value))
        {
            var found = Verify(ledger, Encoding.UTF8.GetBytes(body));
            Assert.Equal([(Serial, "body")], found.Faults.Select(f => ((int)f.Serial, f.Kind)));
        }
    }

    [Theory]
    [InlineData("0")]
    [InlineData("-0.5")]
    [InlineData("1e5")]
    [InlineData("-1.25E-17")]
    [InlineData("123456789012345678901234567890123456789012345")]
    [InlineData("0.123456789012345678901234567890123456789012345")]
    [InlineData("12345678901234567890123456789012")]
    [InlineData("1234567890123456789012345678901")]
    [InlineData("[]")]
    [InlineData("{}")]
    [InlineData("[[],{},[{\"kind\":1}]]")]
    [InlineData("true")]
    [InlineData("false")]
    [InlineData("null")]
    [InlineData("\"\"")]
    [InlineData("\"é\"")]
    [InlineData("\"\\u00e9\\\"\"")]
    [InlineData("\"a string of more than one hundred bytes, so that it is read in several pieces, and ends in the middle of one\"")]
    [InlineData(" 1 ")]
    [InlineData("[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[1]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]")]
    public async Task A_value_that_is_JSON_is_not_a_fault_wherever_it_is(string value)
    {
        using var ledger = await Begun();
        foreach (var body in WithValue(ledger, value))
        {
            Assert.Empty(Verify(ledger, Encoding.UTF8.GetBytes(body)).Faults);
        }
    }

    [Fact]
    public async Task Bytes_changed_at_random_get_the_framework_s_verdict()
    {
        using var ledger = await Begun();
        var original = Encoding.UTF8.GetBytes(Answer(ledger));
        var outcomes = new HashSet<string>();
        for (var seed = 0; seed < Cases; seed++)
        {
            var body = Changed(original, new(seed));
            var expected = Expected(original, body);
            var found = Verify(ledger, body);

            var got = found.Unreadable is not null ? "columns" : found.Faults.Count == 0 ? "whole" : Assert.Single(found.Faults).Kind;
            Assert.True(expected == got, $"case {seed}: {got}, not {expected}: {Encoding.UTF8.GetString(body)}");
            outcomes.Add(got);
        }

        Assert.Superset(new HashSet<string> { "whole", "columns", "body" }, outcomes);
    }

    private static async Task<Support.Ledger> Begun()
    {
        var ledger = await new Support.Ledger().Begin();
        await ledger.Do(Support.Ledger.Locate());
        await ledger.Do(Support.Ledger.Measured(0.091));
        await ledger.Do(Support.Ledger.Confirm(3));
        await ledger.End();
        return ledger;
    }

    /// <summary>The answer as entry 7; it is in no index.</summary>
    private static string Answer(Support.Ledger ledger) =>
        ledger.Rows()[2].Body.Replace("\"serial\":3", $"\"serial\":{Serial}", StringComparison.Ordinal);

    private static IEnumerable<string> WithValue(Support.Ledger ledger, string value)
    {
        var body = Answer(ledger);
        yield return body.Replace("\"v\":2,", $"\"v\":2,\"x\":{value},", StringComparison.Ordinal);
        yield return body.Replace("\"nest\":[", $"\"nest\":[[{{\"x\":[0,{{\"y\":0}}]}}],", StringComparison.Ordinal)[..^1] + $",\"x\":{value}}}";
    }

    private static byte[] Changed(byte[] body, Random random)
    {
        const string Bytes = "\"\"{}[]::,,\\ 0123456789..--+eEtfna\u0001\u007f";
        var (at, other) = (random.Next(body.Length), (byte)Bytes[random.Next(Bytes.Length)]);
        return random.Next(5) switch
        {
            0 => [.. body[..at], .. body[(at + 1)..]],
            1 => [.. body[..at], other, .. body[at..]],
            2 => body[..at],
            3 when random.Next(2) == 0 => [.. body, other],
            _ => [.. body[..at], other, .. body[(at + 1)..]],
        };
    }

    private static string Expected(byte[] original, byte[] body)
    {
        try
        {
            using var right = JsonDocument.Parse(original);
            using var json = JsonDocument.Parse(body, new() { AllowDuplicateProperties = false });
            var same = Columns.All(c => Text(json, c) == Text(right, c));
            return same ? "whole" : json.RootElement.TryGetProperty("v", out var v) && v.ValueKind == JsonValueKind.Number && v.TryGetInt32(out _)
                ? "columns" : "body";
        }
        catch (JsonException)
        {
            return "body";
        }
    }

    private static string? Text(JsonDocument json, string name) => json.RootElement.TryGetProperty(name, out var value) ? value.ToString() : null;

    private static Verification Verify(Support.Ledger ledger, byte[] body)
    {
        var before = ledger.Rows()[5].Hash;
        using (var connection = ledger.Other())
        {
            using var command = connection.CreateCommand();
            command.CommandText =
                $"INSERT OR REPLACE INTO entry SELECT {Serial}, at, kind, fixture, revision, client, tag, CAST($body AS TEXT), $hash FROM entry WHERE serial "
                + $"= 3";
            command.Parameters.AddWithValue("$body", body);
            command.Parameters.AddWithValue("$hash", SHA256.HashData([1, .. before, .. body]));
            Assert.Equal(1, command.ExecuteNonQuery());
        }

        return ledger.Verify();
    }
}
