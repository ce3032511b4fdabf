using Stockseat.Service.Showing;

namespace Stockseat.Service.Configuration;

/// <summary>What the command line may set.</summary>
/// <param name="File">The configuration file; null: none, the defaults.</param>
/// <param name="Data">The data folder, relative to the current folder.</param>
/// <param name="Grpc">Where gRPC listens.</param>
/// <param name="Line">Where the line protocol listens.</param>
/// <param name="Display">How people are shown things; null: nothing is set.</param>
public sealed record Overrides(string? File, string? Data = null, string? Grpc = null, string? Line = null, DisplayOverrides? Display = null);
