using System.Net;
using Stockseat.Fixtures.Reading;
using Stockseat.Service.Certificates;
using Stockseat.Service.Lines.Forms;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Clients;

/// <summary>Reads the clients, in order.</summary>
internal sealed class ClientsReader(IReadOnlyDictionary<string, Form> forms, TlsSettings? tls, List<SettingSource> sources)
{
    private const string AllFixtures = "*";
    private const string ByAddress = "by-address";
    private static readonly IPNetwork[] Anywhere = [IPNetwork.Parse("0.0.0.0/0"), IPNetwork.Parse("::/0")];
    private static readonly string[] RoleNames = ["locate", "measure", "review", "calibrate"];

    /// <summary>The clients; without any, every caller of this machine may do everything.</summary>
    public List<Client> Read(IReadOnlyList<Section>? sections)
    {
        if (sections is null)
        {
            IPNetwork[] here = [IPNetwork.Parse("127.0.0.0/8"), IPNetwork.Parse("::1/128")];
            var local = new Client { Name = "local", From = here, Roles = Roles.All, Form = forms["named"] };
            sources.Add(new("Clients:0", Said(local), "default"));
            return [local];
        }

        var clients = new List<Client>();
        foreach (var section in sections)
        {
            var client = ReadOne(section);
            sources.Add(new($"Clients:{clients.Count}", Said(client), "file"));
            clients.Add(client);
        }

        return clients;
    }

    private Client ReadOne(Section section)
    {
        var name = section.Text("Name", longest: 40) ?? "";
        if (name.Length > 0 && !NameText.IsName(name))
        {
            section.Faults.Add(section.At("Name"), $"is \"{name}\"; {NameText.Expected} was expected");
        }

        var certificate = section.Text("Certificate", required: false, longest: 300) is { } proof ? Proof(section, proof) : null;
        var client = new Client
        {
            Name = name,
            Cell = section.Text("Cell", required: false, longest: 40),
            Certificate = certificate,
            From = section.Has("From") || !section.Has("Certificate")
                ? [.. section.Texts("From", 1, 100).Select((text, i) => Network(section, i, text)).OfType<IPNetwork>()] : Anywhere,
            PagesByAddress = section.Text("Pages", required: false, longest: 40) is { } pages && IsByAddress(section, pages),
            Roles = section.Texts("Roles", 0, 4).Select((text, i) => Role(section, i, text)).Aggregate(Roles.None, (all, r) => all | r),
            Fixtures = section.Has("Fixtures") ? Fixtures(section) : null,
            Require = section.Has("Require") ? Required(section) : [],
            Form = section.Text("Form", required: false, longest: 40) is { } form ? Form(section, form) : forms["named"],
            Connections = section.Whole("Connections", 1, 100_000, required: false) ?? Client.UsualConnections,
            Rate = section.Whole("Rate", 1, 1_000_000, required: false) ?? Client.UsualRate,
            Watches = section.Whole("Watches", 1, 64, required: false) ?? Client.UsualWatches,
        };
        section.Finish();
        return client;
    }

    /// <summary>A certificate needs TLS to be shown, and a name needs an authority that vouches for it.</summary>
    private string? Proof(Section section, string text)
    {
        var proof = ProofText.Read(text);
        var fault = proof is null ? $"is \"{text}\"; {ProofText.Expected}, was expected; stockseat certificate show tells both"
            : tls is null ? "can't be shown: there is no TLS; state the service's own certificate under Tls"
            : ProofText.IsName(proof) && tls.Authorities is null
                ? $"is \"{text}\", a name, and nobody vouches for names; state Authorities under Tls, or the certificate's pin here"
            : null;
        if (fault is not null)
        {
            section.Faults.Add(section.At("Certificate"), fault);
        }

        return proof;
    }

    private static bool IsByAddress(Section section, string text)
    {
        if (text != ByAddress)
        {
            section.Faults.Add(section.At("Pages"), $"is \"{text}\"; {ByAddress} was expected: pages may be opened from this client's addresses without a "
                + "certificate");
        }

        return true;
    }

    private static Roles Role(Section section, int index, string text)
    {
        if (!RoleNames.Contains(text))
        {
            section.Faults.Add($"{section.At("Roles")}[{index}]", $"is \"{text}\"; one of {string.Join(", ", RoleNames)} was expected");
            return Roles.None;
        }

        return Enum.Parse<Roles>(text, ignoreCase: true);
    }

    private static List<string> Required(Section section) =>
        [.. section.Texts("Require", 0, Requirements.Names.Count).Where((text, i) => IsRequirement(section, i, text)).Distinct()];

    private static bool IsRequirement(Section section, int index, string text)
    {
        if (Requirements.Names.Contains(text))
        {
            return true;
        }

        section.Faults.Add($"{section.At("Require")}[{index}]", $"is \"{text}\"; one of {string.Join(", ", Requirements.Names)} was expected");
        return false;
    }

    private static HashSet<string>? Fixtures(Section section)
    {
        var names = section.Texts("Fixtures", 1, 1000);
        for (var i = 0; i < names.Count; i++)
        {
            if (names[i] != AllFixtures && !NameText.MayBeFixture(names[i]))
            {
                section.Faults.Add($"{section.At("Fixtures")}[{i}]", $"is \"{names[i]}\"; a fixture's name, or * for all, was expected");
            }
        }

        return names.Contains(AllFixtures) ? null : names.ToHashSet(StringComparer.Ordinal);
    }

    private Form Form(Section section, string name)
    {
        if (forms.TryGetValue(name, out var form))
        {
            return form;
        }

        section.Faults.Add(section.At("Form"), $"is \"{name}\"; one of {string.Join(", ", forms.Keys)} was expected");
        return forms["named"];
    }

    /// <summary>An address or a range of From.</summary>
    internal static IPNetwork? Network(Section section, int index, string text)
    {
        if (AddressText.Network(text, out var fault) is { } network)
        {
            return network;
        }

        section.Faults.Add($"{section.At("From")}[{index}]", $"is \"{text}\"; an address or a range such as 127.0.0.0/8 was expected; {fault}");
        return null;
    }

    private static string Said(Client client)
    {
        var roles = RoleNames.Where(r => client.Roles.HasFlag(Enum.Parse<Roles>(r, ignoreCase: true))).ToList();
        return $"{client.Name}{(client.Cell is null ? "" : $" of cell {client.Cell}")} from {string.Join(", ", client.From)}"
            + $"{(client.Certificate is null ? "" : $" with the certificate {client.Certificate}")}; "
            + $"{(roles.Count == 0 ? "no role" : $"roles {string.Join(", ", roles)}")}; "
            + $"{(client.Fixtures is null ? "all fixtures" : $"fixtures {string.Join(", ", client.Fixtures.Order(StringComparer.Ordinal))}")}; "
            + $"{(client.PagesByAddress ? "pages by address; " : "")}"
            + $"{(client.Require.Count == 0 ? "" : $"requires {string.Join(", ", client.Require)}; ")}form {client.Form.Name}; {client.Connections} "
                + $"connections, {client.Rate} requests a second, {client.Watches} watches";
    }
}
