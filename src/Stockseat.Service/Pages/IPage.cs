namespace Stockseat.Service.Pages;

/// <summary>A page, or a family of pages whose paths begin alike. What every page needs is done before it is asked: who calls, from where, how often.</summary>
public interface IPage
{
    /// <summary>The first part of its path: "hold" for /hold/pinbed-1; "" for the board.</summary>
    string Name { get; }

    /// <summary>Its words in the menu; null: it is not in the menu.</summary>
    string? Menu => null;

    /// <summary>Shows it. A GET changes nothing.</summary>
    Task<PageReply> Get(PageRequest request);

    /// <summary>Does what its form says. The form is fresh and was sent from this page by this client.</summary>
    /// <param name="request">The request.</param>
    /// <param name="form">What was sent, with the id under which the answerer knows it: sent twice, it is one entry.</param>
    Task<PageReply> Post(PageRequest request, SentForm form) => Task.FromResult(PageReply.NoForm);

    /// <summary>Shows the form again with what was typed, when it is too old or from before a restart. Nothing was done.</summary>
    /// <param name="request">The request.</param>
    /// <param name="form">What was sent.</param>
    /// <param name="said">Why, and what to do.</param>
    Task<PageReply> Again(PageRequest request, SentForm form, string said) => Task.FromResult(PageReply.NoForm);
}
