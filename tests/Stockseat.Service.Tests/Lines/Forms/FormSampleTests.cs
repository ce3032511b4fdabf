using Stockseat.Service.Lines.Forms;

namespace Stockseat.Service.Tests.Lines.Forms;

/// <summary>What settings --form says of a form that lacks something.</summary>
public sealed class FormSampleTests
{
    [Theory]
    [InlineData("ok;{serial};{tag};{first};{bx};{by};{bz};end", false, false)]
    [InlineData("ok;{serial};{tag};{firstnumber};{bx};{by};{bz};end", false, false)]
    [InlineData("ok;{serial};{tag};{bx};{by};{bz};end", true, false)]
    [InlineData("ok;{serial};{first};{bx};{by};{bz};end", false, true)]
    public void A_form_without_first_or_without_tag_is_noticed(string ok, bool lacksFirst, bool lacksTag)
    {
        var said = FormSample.Of(new Form { Name = "f", Ok = FormTemplate.Parse(ok, FormField.OfOk, []) }).Advice;

        Assert.Equal(lacksFirst, said.Any(s => s.Contains("run every answer at reduced speed", StringComparison.Ordinal)));
        Assert.Equal(lacksTag, said.Any(s => s.Contains("does not repeat the tag of an ask", StringComparison.Ordinal)));
    }
}
