namespace Stockseat.Sheets.Svg;

/// <summary>What a drawing needs inside a page: a title and a description for people who can't see it.</summary>
/// <param name="Id">Its name on the page, letters and digits.</param>
/// <param name="Title">What it is, in a few words.</param>
/// <param name="Description">What it shows, in a sentence or two.</param>
public sealed record PagePart(string Id, string Title, string Description);
