using System.Diagnostics;
using System.Security.Cryptography;
using Stockseat.Ledger.Tests.Support;

namespace Stockseat.Ledger.Tests.Seals;

public sealed class SealKeyTests : IDisposable
{
    private readonly KeyFile _key = new();

    public void Dispose() => _key.Dispose();

    [Fact]
    public void A_P256_key_in_a_file_that_only_its_owner_can_read_is_accepted()
    {
        using var key = _key.Write().Load();

        Assert.Matches("^[0-9a-f]{64}$", key.Public.Fingerprint);
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(Convert.FromBase64String(key.Public.Base64))), key.Public.Fingerprint);
    }

    [Fact]
    public void The_older_form_with_its_parameters_before_the_key_is_accepted_too()
    {
        using var made = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        // What openssl ecparam -name prime256v1 -genkey writes: the curve's name in a block of its own, then the key.
        _key.Write($"-----BEGIN EC PARAMETERS-----\nBggqhkjOPQMBBw==\n-----END EC PARAMETERS-----\n{made.ExportECPrivateKeyPem()}\n");

        Assert.Equal(Convert.ToBase64String(made.ExportSubjectPublicKeyInfo()), _key.Load().Public.Base64);
    }

    [Theory]
    [InlineData(UnixFileMode.GroupRead)]
    [InlineData(UnixFileMode.GroupWrite)]
    [InlineData(UnixFileMode.OtherRead)]
    [InlineData(UnixFileMode.OtherWrite)]
    [InlineData(UnixFileMode.OtherExecute)]
    public void A_key_with_any_permission_for_others_is_refused(UnixFileMode more)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "this system has no such permissions");
        _key.Write().Mode(UnixFileMode.UserRead | more);

        Assert.EndsWith($"seal.pem can be read or changed by others; take their rights away (chmod 600 {_key.Path})", _key.Fault(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_permissions_of_a_link_s_target_count()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "this system has no such permissions");
        var target = Path.Combine(_key.Folder, "target.pem");
        _key.Write(path: target).Mode(UnixFileMode.UserRead | UnixFileMode.OtherRead, target);
        File.CreateSymbolicLink(_key.Path, target);

        Assert.Contains("can be read or changed by others", _key.Fault(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("data/seal.pem")]
    [InlineData("data/below/seal.pem")]
    public void A_key_in_the_data_folder_is_refused(string path)
    {
        path = Path.Combine(_key.Folder, path);
        _key.Write(path: path);

        Assert.EndsWith("is in the data folder, so whoever copies the ledger would have it; put it elsewhere", _key.Fault(path), StringComparison.Ordinal);
    }

    [Fact]
    public void A_link_does_not_hide_that_the_key_is_in_the_data_folder()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "links need a special permission on Windows");
        var real = Path.Combine(_key.Folder, "real");
        _key.Write(path: Path.Combine(real, "seal.pem"));
        Directory.CreateSymbolicLink(_key.Data, real);
        Assert.Contains("is in the data folder", _key.Fault(Path.Combine(real, "seal.pem")), StringComparison.Ordinal);

        File.CreateSymbolicLink(_key.Path, Path.Combine(_key.Data, "seal.pem"));
        Assert.Contains("is in the data folder", _key.Fault(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_whose_name_only_begins_the_same_is_another_folder()
    {
        var path = Path.Combine(_key.Folder, "data-keys", "seal.pem");
        _key.Write(path: path);

        Stockseat.Ledger.Seals.SealKey.Load(path, _key.Data).Dispose();
    }

    [Fact]
    public void Another_curve_is_refused() => Refused("nistP384", "is not on the curve P-256; make one as install/README.md shows");

    [Fact]
    public void A_public_key_is_refused() => Refused("public", "is a public key, which can't seal; name the file with the private one");

    [Theory]
    [InlineData("rsa")]
    [InlineData("password")]
    [InlineData("cut")]
    [InlineData("empty")]
    [InlineData("text")]
    public void A_file_that_is_not_a_usable_key_is_refused(string what) =>
        Refused(what, "is not a private key on the curve P-256, in PEM and without a password: ");

    [Fact]
    public void A_file_that_is_too_large_is_refused() => Refused("large", "and no key has more than 65536");

    [Fact]
    public void A_missing_key_is_refused() =>
        Assert.Contains("seal.pem does not exist; make one as install/README.md shows", _key.Fault(), StringComparison.Ordinal);

    [Fact]
    public void A_folder_in_place_of_the_key_is_refused()
    {
        Directory.CreateDirectory(_key.Path);
        Assert.Contains("seal.pem is not a regular file", _key.Fault(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_pipe_in_place_of_the_key_does_not_block()
    {
        await NamedPipe.Make(_key.Path);
        var fault = await Task.Run(() => _key.Fault()).Within("the reading of a pipe");
        Assert.Contains($"the key {_key.Path} is not a regular file", fault, StringComparison.Ordinal);
    }

    private void Refused(string what, string expected)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        using var rsa = RSA.Create(2048);
        _key.Write(what switch
        {
            "nistP384" => KeyFile.New(ECCurve.NamedCurves.nistP384),
            "public" => key.ExportSubjectPublicKeyInfoPem(),
            "rsa" => rsa.ExportPkcs8PrivateKeyPem(),
            "password" => key.ExportEncryptedPkcs8PrivateKeyPem("secret", new(PbeEncryptionAlgorithm.Aes256Cbc, HashAlgorithmName.SHA256, 1000)),
            "cut" => key.ExportPkcs8PrivateKeyPem()[..100],
            "empty" => "",
            "large" => new string('x', 70_000),
            _ => "no key",
        });

        Assert.Contains(expected, _key.Fault(), StringComparison.Ordinal);
    }
}
