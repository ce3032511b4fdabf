using System.Text;
using Microsoft.AspNetCore.Connections;
using Stockseat.Answers.Reasons;
using Stockseat.Sheets.Html;

namespace Stockseat.Service.Pages;

/// <summary>Refuses the first request of somebody who may not open pages. Nothing that such a caller sends is read as a request.</summary>
internal static class PageFarewell
{
    /// <summary>Waits for the first bytes, and answers them with the refusal.</summary>
    public static async Task Refuse(ConnectionContext connection, Refusal refusal, CancellationToken late)
    {
        var read = await connection.Transport.Input.ReadAsync(late);
        var isThere = !read.Buffer.IsEmpty;
        connection.Transport.Input.AdvanceTo(read.Buffer.End);
        if (isThere)
        {
            await connection.Transport.Output.WriteAsync(Reply(refusal), late);
        }
    }

    private static byte[] Reply(Refusal refusal)
    {
        var text = Encoding.UTF8.GetBytes(PlainText.Clean(refusal.Text) + "\n");
        var head = new StringBuilder("HTTP/1.1 403 Forbidden\r\nContent-Type: text/plain; charset=utf-8\r\nConnection: close\r\n")
            .Append(System.Globalization.CultureInfo.InvariantCulture, $"Content-Length: {text.Length}\r\n");
        foreach (var (name, value) in PageSecurity.Headers)
        {
            head.Append(name).Append(": ").Append(value).Append("\r\n");
        }

        return [.. Encoding.ASCII.GetBytes(head.Append("\r\n").ToString()), .. text];
    }
}
