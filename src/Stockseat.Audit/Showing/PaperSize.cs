namespace Stockseat.Audit.Showing;

/// <summary>A paper that pages are made for, upright, in millimetres.</summary>
/// <param name="Name">Its name, as style sheets know it.</param>
/// <param name="Width">Its width.</param>
/// <param name="Height">Its height.</param>
public sealed record PaperSize(string Name, double Width, double Height)
{
    /// <summary>ISO 216: 210 mm by 297 mm.</summary>
    public static PaperSize A4 { get; } = new("A4", 210, 297);

    /// <summary>ANSI/ASME Y14.1: 8.5 in by 11 in.</summary>
    public static PaperSize Letter { get; } = new("Letter", 215.9, 279.4);

    /// <summary>The paper of a name; null when there is none.</summary>
    public static PaperSize? Find(string name) => name == A4.Name ? A4 : name == Letter.Name ? Letter : null;
}
