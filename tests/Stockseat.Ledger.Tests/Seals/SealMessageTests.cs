using System.Security.Cryptography;
using System.Text;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Tests.Support;

namespace Stockseat.Ledger.Tests.Seals;

/// <summary>What is signed, and how: the README describes it, so not one byte may change.</summary>
public sealed class SealMessageTests : IDisposable
{
    private const string Hash = "00112233445566778899aabbccddeeff00112233445566778899aabbccddeeff";
    private const string Text = "stockseat seal 1\nledger 8a7a7c1e-7a53-4f52-bf3b-0b2d7c1f0e11\nserial 4711\nhash " + Hash
        + "\nat 2026-11-25T08:00:00.000001Z\n";

    private static readonly DateTimeOffset At = new DateTimeOffset(2026, 11, 25, 8, 0, 0, TimeSpan.Zero).AddTicks(10);
    private readonly KeyFile _file = new KeyFile().Write();

    public void Dispose() => _file.Dispose();

    [Fact]
    public void Five_lines_of_ASCII_are_signed() =>
        Assert.Equal(Encoding.ASCII.GetBytes(Text), SealMessage.Of("8a7a7c1e-7a53-4f52-bf3b-0b2d7c1f0e11", 4711, Hash, "2026-11-25T08:00:00.000001Z"));

    [Fact]
    public void The_signature_is_DER_over_these_bytes_and_not_the_fixed_length_form()
    {
        var seal = Seal();
        using var plain = ECDsa.Create();
        plain.ImportFromPem(File.ReadAllText(_file.Path));
        var signature = Convert.FromBase64String(seal.Signature);

        Assert.Equal((0x30, signature.Length - 2), (signature[0], signature[1])); // SEQUENCE and its length: X.690, 8.1, from memory
        Assert.True(plain.VerifyData(Encoding.ASCII.GetBytes(Text), signature, HashAlgorithmName.SHA256, DSASignatureFormat.Rfc3279DerSequence));
        Assert.False(plain.VerifyData(Encoding.ASCII.GetBytes(Text), signature, HashAlgorithmName.SHA256, DSASignatureFormat.IeeeP1363FixedFieldConcatenation));
        Assert.False(plain.VerifyData(Encoding.ASCII.GetBytes(Text.Replace("4711", "4712", StringComparison.Ordinal)), signature, HashAlgorithmName.SHA256,
            DSASignatureFormat.Rfc3279DerSequence));
    }

    [Fact]
    public void The_public_key_is_included_when_the_previous_seal_had_another_key_or_there_was_none()
    {
        var key = _file.Load();

        Assert.Equal(key.Public.Base64, Seal().PublicKey);
        Assert.Equal(key.Public.Base64, Seal("another").PublicKey);
        Assert.Null(Seal(key.Public.Fingerprint).PublicKey);
        Assert.Equal(key.Public.Fingerprint, Seal().Key);
    }

    [Fact]
    public void An_anchor_is_the_same_five_lines_with_key_and_signature()
    {
        var seal = Seal() with { };
        seal.At = EntryTime.Text(At);
        var anchor = Anchor.Of(seal);

        Assert.Equal($"{Text}key {seal.Key}\nsignature {seal.Signature}\n", anchor.ToText());
        Assert.Equal(anchor, Anchor.TryParse(anchor.ToText().Replace("\n", "\r\n", StringComparison.Ordinal), out _));
        Assert.True(anchor.SignedBy(_file.Load().Public));
        Assert.False((anchor with { Serial = 4712 }).SignedBy(_file.Load().Public));
        Assert.Equal(Text, (anchor with { Key = null, Signature = null }).ToText());
    }

    [Theory]
    [InlineData("")]
    [InlineData("stockseat seal 1\nledger x\nserial 1\nhash 00\nat y\n")]
    [InlineData("stockseat seal 2\nledger x\nserial 1\nhash " + Hash + "\nat y\n")]
    [InlineData("stockseat seal 1\nledger x\nserial -1\nhash " + Hash + "\nat y\n")]
    [InlineData("stockseat seal 1\nserial 1\nledger x\nhash " + Hash + "\nat y\n")]
    public void A_text_that_is_not_an_anchor_is_refused(string text)
    {
        Assert.Null(Anchor.TryParse(text, out var fault));
        Assert.NotNull(fault);
    }

    private SealBody Seal(string? before = null) =>
        _file.Load().Seal("8a7a7c1e-7a53-4f52-bf3b-0b2d7c1f0e11", 4711, Convert.FromHexString(Hash), At, before);
}
