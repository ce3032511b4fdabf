namespace Stockseat.Service.Certificates;

/// <summary>What a caller proved with its certificate when it connected.</summary>
/// <param name="Pin">The pin of its key.</param>
/// <param name="Names">Its names, as dns:NAME or uri:NAME; none unless an authority of the configuration vouches for them.</param>
public sealed record CallerProof(string Pin, IReadOnlyList<string> Names)
{
    /// <summary>Whether it is what an entry of the configuration states: its pin, or one of its names.</summary>
    public bool Is(string stated) => stated == Pin || Names.Contains(stated);
}
