using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;

namespace Stockseat.Service.Pages;

/// <summary>Reads a form that was sent, within its limits.</summary>
internal static class FormReader
{
    /// <summary>The field of the token.</summary>
    public const string Token = "form";

    /// <summary>The largest form: ten texts of the greatest length, with every character written as nine.</summary>
    public const int LargestBody = 64 * 1024;

    private const string Kind = "application/x-www-form-urlencoded";

    private static readonly FormOptions Limits = new() { ValueCountLimit = 100, KeyLengthLimit = 100, ValueLengthLimit = 8 * 1024 };

    /// <summary>The fields and the token; or what is wrong.</summary>
    public static async Task<(SentForm? Form, string Token, string? Fault)> Read(HttpContext context)
    {
        var request = context.Request;
        if (request.ContentType?.Split(';')[0].Trim() is not { } kind || !string.Equals(kind, Kind, StringComparison.OrdinalIgnoreCase))
        {
            return (null, "", $"the form has the content type {request.ContentType ?? "(none)"}; {Kind} was expected");
        }

        context.Features.Get<IHttpMaxRequestBodySizeFeature>()!.MaxRequestBodySize = LargestBody;
        try
        {
            var read = await new FormFeature(request, Limits).ReadFormAsync(context.RequestAborted);
            if (read.FirstOrDefault(f => f.Value.Count > 1).Key is { } twice)
            {
                return (null, "", $"the field {twice} was sent more than once");
            }

            var token = read[Token].ToString();
            var fields = read.Where(f => f.Key != Token).ToDictionary(f => f.Key, f => f.Value.ToString(), StringComparer.Ordinal);
            return (new(fields, FormTokens.RequestOf(token)), token, null);
        }
        catch (Exception e) when (e is InvalidDataException or BadHttpRequestException)
        {
            return (null, "", $"the form can't be read ({e.Message.TrimEnd('.')}); it may have {LargestBody} bytes at most");
        }
    }
}
