using Microsoft.AspNetCore.Http;
using RazorSlices;
using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Pages;

/// <summary>What a page replies.</summary>
public sealed record PageReply
{
    private PageReply()
    {
    }

    /// <summary>The form of a page that has none was sent.</summary>
    public static PageReply NoForm { get; } = Problem(StatusCodes.Status405MethodNotAllowed, "This page has no form", "Nothing was recorded.");

    /// <summary>There is no such page.</summary>
    public static PageReply NoPage { get; } = Problem(
        StatusCodes.Status404NotFound, "There is no such page", "Check the address, or begin at the board.");

    /// <summary>The HTTP status.</summary>
    public int Status { get; private init; } = StatusCodes.Status200OK;

    /// <summary>What is shown; null: nothing.</summary>
    public RazorSlice? Slice { get; private init; }

    /// <summary>A page that is complete by itself, such as a report to print; null: none.</summary>
    public string? Document { get; private init; }

    /// <summary>What writes the reply itself, since it is not a page; null: nothing.</summary>
    public RequestDelegate? Writer { get; private init; }

    /// <summary>Where to look next; null: here.</summary>
    public string? Next { get; private init; }

    /// <summary>What went wrong, in a heading and a sentence; null: nothing.</summary>
    public (string Heading, string Text)? Trouble { get; private init; }

    /// <summary>A page.</summary>
    public static PageReply Show(RazorSlice slice, int status = StatusCodes.Status200OK) => new() { Slice = slice, Status = status };

    /// <summary>A page that is complete by itself. Its texts are escaped already.</summary>
    public static PageReply Whole(string document) => new() { Document = document };

    /// <summary>Something that is not a page, and is written by somebody else.</summary>
    public static PageReply By(RequestDelegate writer) => new() { Writer = writer };

    /// <summary>It was done: the browser goes on to another page, so that neither Back nor reload sends it again.</summary>
    public static PageReply See(string path) => new() { Next = path, Status = StatusCodes.Status303SeeOther };

    /// <summary>Something else than the page that was wanted.</summary>
    public static PageReply Problem(int status, string heading, string text) => new() { Status = status, Trouble = (heading, text) };

    /// <summary>A refusal.</summary>
    public static PageReply Refused(Refusal refusal, string heading = "This was refused") => Problem(StatusOf(refusal.Reason), heading, refusal.Text);

    /// <summary>The HTTP status of a reason.</summary>
    public static int StatusOf(Reason reason) => reason switch
    {
        Reason.NotPermitted => StatusCodes.Status403Forbidden,
        Reason.FixtureUnknown or Reason.SerialUnknown or Reason.RevisionUnknown => StatusCodes.Status404NotFound,
        Reason.TooBusy => StatusCodes.Status429TooManyRequests,
        Reason.InternalFailure => StatusCodes.Status500InternalServerError,
        _ => ReasonInfo.Of(reason).Class switch
        {
            ReasonClass.Service => StatusCodes.Status503ServiceUnavailable,
            ReasonClass.Cell => StatusCodes.Status409Conflict,
            _ => StatusCodes.Status400BadRequest,
        },
    };
}
