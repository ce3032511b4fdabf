using Stockseat.Audit.Reviewing.Results;
using Stockseat.Service.Pages.Entries;

namespace Stockseat.Service.Pages.Reviews;

/// <summary>The minutes around an instant.</summary>
/// <param name="Frame">What is around it.</param>
/// <param name="Form">What was asked.</param>
/// <param name="Zone">The zone of instants.</param>
/// <param name="Shown">What was found; null: nothing was asked yet.</param>
public sealed record ReviewModel(PageFrame Frame, ReviewForm Form, string Zone, ShownReview? Shown);

/// <summary>A review as the page shows it; the report shows all of it.</summary>
/// <param name="Review">The review.</param>
/// <param name="At">Its instant.</param>
/// <param name="Entries">The entries nearest to the instant, in order.</param>
/// <param name="LeftOut">How many more there are.</param>
public sealed record ShownReview(Review Review, string At, IReadOnlyList<EntryLine> Entries, long LeftOut);
