using System.Globalization;

namespace Stockseat.Plant.Forwarding;

/// <summary>The store does not have the entry that it ended with: another server took over, or rows were lost. The place is looked for again.</summary>
internal sealed class StoreChangedException(long serial) : Exception(string.Create(
    CultureInfo.InvariantCulture, $"the plant store no longer has entry {serial} as it was stored; it is asked for its newest entry again"));
