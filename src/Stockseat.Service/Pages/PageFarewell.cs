using System.Globalization;
using System.Net.Security;
using System.Text;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Server.Kestrel.Core.Features;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Clients;
using Stockseat.Sheets.Html;

namespace Stockseat.Service.Pages;

/// <summary>Refuses the first request of somebody who may not open pages. Nothing that such a caller sends is read as a request.</summary>
internal static class PageFarewell
{
    private const int Status = StatusCodes.Status403Forbidden;

    /// <summary>Waits for the first request, and answers it with the refusal.</summary>
    public static Task Refuse(ConnectionContext connection, Refusal refusal, CancellationToken late)
    {
        var text = Encoding.UTF8.GetBytes(PlainText.Clean(refusal.Text) + "\n");
        IEnumerable<(string Name, string Value)> fields =
        [
            ("content-type", "text/plain; charset=utf-8"), ("content-length", text.Length.ToString(CultureInfo.InvariantCulture)),
            .. PageSecurity.Headers.Select(h => (h.Name.ToLowerInvariant(), h.Value)),
        ];
        var agreed = connection.Features.Get<ITlsApplicationProtocolFeature>()?.ApplicationProtocol ?? default;
        return agreed.Span.SequenceEqual(SslApplicationProtocol.Http2.Protocol.Span)
            ? StrangersRequest.Answer(connection, Status, fields, text, late)
            : Answer(connection, fields, text, late);
    }

    /// <summary>The same in HTTP/1.1: the first bytes are enough to know that there is a request.</summary>
    private static async Task Answer(ConnectionContext connection, IEnumerable<(string Name, string Value)> fields, byte[] text, CancellationToken late)
    {
        var read = await connection.Transport.Input.ReadAsync(late);
        var isThere = !read.Buffer.IsEmpty;
        connection.Transport.Input.AdvanceTo(read.Buffer.End);
        if (isThere)
        {
            var head = string.Concat(fields.Append(("connection", "close")).Select(f => $"{f.Item1}: {f.Item2}\r\n"));
            await connection.Transport.Output.WriteAsync(
                (byte[])[.. Encoding.ASCII.GetBytes(FormattableString.Invariant($"HTTP/1.1 {Status} Forbidden\r\n{head}\r\n")), .. text], late);
            await StrangersRequest.LetRead(connection, late);
        }
    }
}
