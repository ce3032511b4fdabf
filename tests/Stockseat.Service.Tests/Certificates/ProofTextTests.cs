using Stockseat.Service.Certificates;

namespace Stockseat.Service.Tests.Certificates;

/// <summary>What an entry of Clients may state as a certificate.</summary>
public sealed class ProofTextTests
{
    private const string Digits = "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef";

    [Theory]
    [InlineData($"sha256:{Digits}", $"sha256:{Digits}")]
    [InlineData("SHA256:0123456789ABCDEF0123456789ABCDEF0123456789ABCDEF0123456789ABCDEF", $"sha256:{Digits}")]
    [InlineData("dns:Lathe-4.Cell.example", "dns:lathe-4.cell.example")]
    [InlineData("DNS:bench", "dns:bench")]
    [InlineData("uri:spiffe://shop.example/Bench", "uri:spiffe://shop.example/Bench")]
    [InlineData($"sha256:{Digits}0", null)]
    [InlineData("sha256:0123", null)]
    [InlineData("sha1:0123456789abcdef", null)]
    [InlineData("dns:", null)]
    [InlineData("dns:*.example", null)]
    [InlineData("dns:10.0.0.7", null)]
    [InlineData("dns:a b", null)]
    [InlineData("uri:", null)]
    [InlineData("uri:not a uri", null)]
    [InlineData("lathe-4", null)]
    [InlineData("", null)]
    public void A_pin_or_a_name_is_read_in_its_usual_form(string text, string? read) => Assert.Equal(read, ProofText.Read(text));

    [Fact]
    public void A_proof_is_the_pin_or_any_of_its_names()
    {
        var proof = new CallerProof($"sha256:{Digits}", ["dns:bench", "uri:spiffe://shop.example/Bench"]);

        Assert.True(proof.Is($"sha256:{Digits}"));
        Assert.True(proof.Is("dns:bench"));
        Assert.True(proof.Is("uri:spiffe://shop.example/Bench"));
        Assert.False(proof.Is("uri:spiffe://shop.example/bench"));
        Assert.False(proof.Is("dns:lathe-4"));
    }
}
