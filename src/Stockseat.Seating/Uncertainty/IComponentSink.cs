namespace Stockseat.Seating.Uncertainty;

/// <summary>Takes the inputs of a propagation one after the other.</summary>
internal interface IComponentSink
{
    /// <summary>An independent input.</summary>
    /// <param name="component">What it belongs to.</param>
    /// <param name="input">How far it may be from its estimate.</param>
    /// <param name="along">Its sensitivity along the seat axis.</param>
    /// <param name="across">Its sensitivity across.</param>
    void Add(Component component, in Input input, double along, double across);
}
