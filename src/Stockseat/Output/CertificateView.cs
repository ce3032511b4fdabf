using System.Globalization;
using Stockseat.Audit.Showing;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Service.Certificates;
using Stockseat.Service.Certificates.Issuing;

namespace Stockseat.Cli.Output;

/// <summary>Certificates that were made or read, and what to do with them.</summary>
/// <param name="Now">The present instant.</param>
/// <param name="Times">How people are shown instants.</param>
/// <param name="AsJson">Whether a program reads it.</param>
internal sealed record CertificateView(DateTimeOffset Now, ZonedTimes Times, bool AsJson)
{
    private const int LabelWidth = 13;

    /// <summary>A new authority.</summary>
    public void Authority(CertificateFacts facts, string file, string keyFile)
    {
        if (Made(facts, file, keyFile, isCut: false))
        {
            return;
        }

        Plain.Line($"Who has {keyFile} can make certificates that your service and clients accept: keep it on a computer that is none of them.");
        Plain.Line("Copy the certificate to the service, beside its own, and to each client. Write into the service's configuration, under \"Tls\":");
        Plain.Line($"  \"Authorities\": \"tls/{SigningAuthority.PemName}\"");
    }

    /// <summary>A new certificate of a service or a client.</summary>
    /// <param name="facts">What it says.</param>
    /// <param name="asked">What was asked.</param>
    /// <param name="file">Its file.</param>
    /// <param name="keyFile">The file of its key.</param>
    /// <param name="hasNewKey">Whether the key was made with it.</param>
    /// <param name="isCut">Whether it ends with its authority.</param>
    public void Issued(CertificateFacts facts, CertificateRequested asked, string file, string keyFile, bool hasNewKey, bool isCut)
    {
        if (Made(facts, file, hasNewKey ? keyFile : null, isCut))
        {
            return;
        }

        if (isCut)
        {
            Plain.Line($"It ends with its authority, before the {asked.Days} days that were asked for; make the next authority in time.");
        }

        if (!hasNewKey)
        {
            Plain.Line($"It is for the key {keyFile}, and every certificate of that key has this pin, so the configuration stays as it is.");
            Plain.Line("Copy it over the old certificate, under the old one's name. The old one holds until its end.");
            return;
        }

        foreach (var line in asked.Use == CertificateUse.Service ? ForService(file, keyFile) : ForClient(facts, asked.Name))
        {
            Plain.Line(line);
        }
    }

    /// <summary>A certificate of a file.</summary>
    /// <param name="file">The file.</param>
    /// <param name="number">Which of its certificates this is, from 1.</param>
    /// <param name="count">How many certificates it has.</param>
    /// <param name="facts">What it says.</param>
    /// <param name="advice">What is wrong with it.</param>
    public void Show(string file, int number, int count, CertificateFacts facts, IReadOnlyList<CertificateAdvice> advice)
    {
        var left = facts.DaysLeft(Now);
        if (AsJson)
        {
            Json.Line(new CertificateShape(
                file, number, facts.Subject, facts.Issuer, facts.Names, facts.Uses, facts.Key, facts.Pin, Utc(facts.From), Utc(facts.Until), left,
                advice.Select(a => new CertificateAdviceShape(a.IsFault, a.Text)).ToList()));
            return;
        }

        Plain.Line(count == 1 ? file : $"{file}, certificate {number} of {count}");
        Row("subject", facts.Subject);
        Row("issuer", facts.Issuer);
        Row("names", Listed(facts.Names));
        Row("uses", Listed(facts.Uses));
        Row("key", facts.Key);
        Row("pin", facts.Pin);
        Row("valid from", Times.Second(facts.From));
        Row("valid until", $"{Times.Second(facts.Until)}, {CertificateEnd.Days(left)} left");
        foreach (var said in advice)
        {
            Row(said.IsFault ? "fault" : "advice", said.Text);
        }
    }

    private static string[] ForService(string file, string keyFile) =>
    [
        "Put the certificate and its key into the folder tls beside the service's configuration, and write there:",
        $"  \"Tls\": {{ \"Certificate\": \"tls/{Path.GetFileName(file)}\", \"Key\": \"tls/{Path.GetFileName(keyFile)}\", "
            + $"\"Authorities\": \"tls/{SigningAuthority.PemName}\" }}",
    ];

    private static string[] ForClient(CertificateFacts facts, string name) =>
    [
        "Give the certificate and its key to the client. Write into the service's configuration, with what the client may do:",
        $"  \"Clients\": [ {{ \"Name\": \"{name}\", \"Certificate\": \"{facts.Pin}\" }} ]",
        $"or, for every certificate of that name that the authority signs: \"Certificate\": \"dns:{name}\"",
    ];

    /// <summary>Prints what was made; true when that is all.</summary>
    private bool Made(CertificateFacts facts, string file, string? keyFile, bool isCut)
    {
        if (AsJson)
        {
            Json.Line(new CertificateMadeShape(file, keyFile, facts.Pin, facts.Names, Utc(facts.From), Utc(facts.Until), isCut));
            return true;
        }

        Row("certificate", file);
        if (keyFile is not null)
        {
            Row("key", keyFile);
        }

        Row("pin", facts.Pin);
        Row("valid until", Times.Second(facts.Until));
        return false;
    }

    private static void Row(string label, string value) => Plain.Line($"{label.PadRight(LabelWidth)}{value}");

    private static string Listed(IReadOnlyList<string> words) => words.Count == 0 ? "none" : string.Join(", ", words);

    private static string Utc(DateTimeOffset at) => at.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
}
