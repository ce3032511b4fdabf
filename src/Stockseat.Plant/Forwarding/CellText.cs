using System.Text.Json;

namespace Stockseat.Plant.Forwarding;

/// <summary>Finds the cell in a body.</summary>
internal static class CellText
{
    /// <summary>The cell; null: the body has none, or can't be read.</summary>
    public static string? Of(ReadOnlySpan<byte> body)
    {
        if (body.IndexOf("\"cell\":\""u8) < 0)
        {
            return null; // Most of the entries without one need not be read.
        }

        try
        {
            var reader = new Utf8JsonReader(body);
            reader.Read();
            while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
            {
                var found = reader.ValueTextEquals("cell"u8);
                reader.Read();
                if (found)
                {
                    return reader.TokenType == JsonTokenType.String ? reader.GetString() : null;
                }

                reader.Skip();
            }
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            // The body is sent as it is; a verification reports what is wrong with it.
        }

        return null;
    }
}
