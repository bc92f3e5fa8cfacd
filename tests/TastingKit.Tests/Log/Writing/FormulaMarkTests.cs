using System.Text;
using TastingKit.Tests.Log.Reading;

namespace TastingKit.Tests.Log.Writing;

/// <summary>What a spreadsheet would run gets an apostrophe where it is written, and loses just that one where it is read.</summary>
public sealed class FormulaMarkTests
{
    [Theory]
    [InlineData("=1+1", "'=1+1")]
    [InlineData("@SUM(A1)", "'@SUM(A1)")]
    [InlineData("-fine", "'-fine")]
    [InlineData("+49 30", "'+49 30")]
    [InlineData("-2.5", "-2.5")]
    [InlineData("+7", "+7")]
    [InlineData("-2.5.1", "'-2.5.1")]
    [InlineData("-", "'-")]
    [InlineData("'=1+1", "''=1+1")]
    [InlineData("''=1+1", "'''=1+1")]
    [InlineData("'-2.5", "''-2.5")]
    [InlineData("'s Morgens", "'s Morgens")]
    [InlineData("'", "'")]
    [InlineData("\uFF1D1", "'\uFF1D1")]
    [InlineData("apricot", "apricot")]
    [InlineData("", "")]
    public void A_text_is_marked_where_it_could_run(string text, string written)
    {
        Assert.Equal(written, FormulaMark.On(text));
        Assert.Equal(text, Off(written));
    }

    [Fact]
    public void Every_short_text_of_awkward_letters_comes_back()
    {
        const string Letters = "'=+-@1.a\t\r\uFF0B\uFF20";
        var texts = new List<string> { "" };
        for (var length = 0; length < 4; length++)
            texts.AddRange([.. texts.Where(text => text.Length == length).SelectMany(text => Letters.Select(letter => text + letter))]);
        Assert.Equal(1 + 12 + 144 + 1728 + 20736, texts.Count);
        Assert.All(texts, text => Assert.Equal(text, Off(FormulaMark.On(text)!)));
        Assert.DoesNotContain(texts, text => text.Length > 0 && "=@\t\r".Contains(FormulaMark.On(text)![0], StringComparison.Ordinal));
    }

    [Fact]
    public void A_mark_is_taken_off_wherever_it_stands_and_told_once_a_column()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,brewer,score,'=mood,remark\n'=T1,B1,2025-03-14,'-oddity,'+7,'@x,'-a\nT2,B1,2025-03-15,'-oddity,,,'-b\n");
        Assert.Equal(["=T1", "T2"], log.Tastings.Select(cup => cup.Id));
        Assert.Equal(("-oddity", 7.0, "@x", "-a"), (log.Tastings[0].Brewer, log.Tastings[0].Score, log.Tastings[0].OtherColumns["=mood"], log.Tastings[0].Remark));
        Assert.Equal([("brewer", 2), ("remark", 2), ("score", 2), ("tasting_id", 2), ("=mood", 2)],
            log.Problems.Where(problem => problem.Rule == "formula-mark").Select(problem => (problem.Column, problem.Line)).OrderBy(place => place.Column == "=mood").ThenBy(place => place.Column, StringComparer.Ordinal));
    }

    private static string Off(string written) => Encoding.UTF8.GetString(FormulaMark.Off(Encoding.UTF8.GetBytes(written)));
}
