using System.Net;
using System.Text.RegularExpressions;
using TastingKit.Tests.Hostility;
using Xunit.Abstractions;

namespace TastingKit.Tests.Rendering;

/// <summary>Every hostile text in every place of a laid-out result, by every renderer: seen, and never obeyed.</summary>
public sealed partial class HostileTextTests(ITestOutputHelper output)
{
    private static readonly string[] OwnElements =
        ["section", "p", "ul", "li", "strong", "div", "table", "caption", "thead", "tbody", "tr", "th", "td", "details", "summary", "label", "input", "bdi"];

    /// <summary>A layout that holds a text in one place, and the place's name.</summary>
    private static IEnumerable<(string Place, ResultLayout Layout)> Places(string text)
    {
        LayoutBlock.Table Table(string title, string heading, string first, string other) => new(new ResultTable(
            title, [new("what", heading, ColumnKind.Text), new("note", "", ColumnKind.Text)],
            [[new TableCell.Text(first), new TableCell.Text(other)], [new TableCell.Text(""), new TableCell.Missing("")]]));
        (string, LayoutBlock)[] places =
        [
            ("finding", new LayoutBlock.Lead(text)),
            ("sentence", new LayoutBlock.Paragraph(text)),
            ("caution", new LayoutBlock.Cautions([new Caution("c", text)])),
            ("folded title", new LayoutBlock.Folded(text, [new LayoutBlock.Paragraph("p")])),
            ("folded sentence", new LayoutBlock.Folded("f", [new LayoutBlock.Paragraph(text)])),
            ("table's title", Table(text, "h", "a", "")),
            ("heading", Table("t", text, "a", "")),
            ("first cell", Table("t", "h", text, "")),
            ("other cell", Table("t", "", "", text)),
        ];
        return places.Select(place => (place.Item1, new ResultLayout([place.Item2])));
    }

    [Fact]
    public void Every_renderer_shows_it_in_every_place()
    {
        var (tried, failed) = (0, new List<string>());
        foreach (var text in HostileTexts.All)
        {
            foreach (var (place, layout) in Places(text.Value))
            {
                var html = HtmlRenderer.Render(layout);
                Try("HTML", Element().Matches(html).All(m => OwnElements.Contains(m.Groups[1].Value)) && !html.Contains("tex2jax_process", StringComparison.Ordinal), WebUtility.HtmlDecode(Element().Replace(html, " ")));
                Try("Markdown", true, Unescaped(MarkdownRenderer.Render(layout)));
                Try("text", true, TextRenderer.Render(layout).Replace("\n", "", StringComparison.Ordinal));

                void Try(string renderer, bool isWhole, string shown)
                {
                    tried++;
                    if (!isWhole || shown.EnumerateRunes().Any(HostileText.IsObeyed) || !IsSeen(shown, text.Value) || shown.Count(c => c == '\u2068') != shown.Count(c => c == '\u2069'))
                        failed.Add($"{text.Name}, {place}, {renderer}");
                }
            }
        }

        output.WriteLine($"{HostileTexts.All.Count} texts in {Places("").Count()} places by 3 renderers: {tried - failed.Count} of {tried} held.");
        Assert.True(failed.Count == 0, string.Join("\n", failed));
    }

    [Fact]
    public void A_very_long_text_is_shown_in_part_and_can_be_had_whole()
    {
        foreach (var text in HostileTexts.All.Where(text => text.Value.Length > 50_000))
        {
            foreach (var (place, layout) in Places(text.Value))
            {
                Assert.InRange(TextRenderer.Render(layout).Length, 100, 2_500);
                Assert.InRange(MarkdownRenderer.Render(layout).Length, 100, 6_000);
                var html = HtmlRenderer.Render(layout);
                if (place.EndsWith("cell", StringComparison.Ordinal))
                    Assert.Equal(HostileText.Ink(text.Value), HostileText.Ink(WebUtility.HtmlDecode(Regex.Match(html, "(?s)</summary>(.*?)</details>").Groups[1].Value)));
                else
                    Assert.InRange(html.Length, 100, 8_000);
            }
        }
    }

    [Fact]
    public void A_name_from_right_to_left_is_set_apart_in_a_sentence()
    {
        const string Name = "\u05e7\u05e4\u05d4 \"12\" \u05d8";
        Assert.Equal($"<bdi>{Name.Replace("\"", "&quot;", StringComparison.Ordinal)}</bdi> leads, 7.5 (7 to 8)", HtmlText.Sentence($"{Name} leads, 7.5 (7 to 8)"));
        Assert.Equal($"a \u2068{Name}\u2069 3 b \u2068{Name}\u2069", SeenText.SetApart($"a {Name} 3 b {Name}"));
    }

    /// <summary>Texts as they are written to a file and read back: all of a text that a file can hold.</summary>
    [Fact]
    public void A_written_log_reads_back_with_every_text()
    {
        var folder = Directory.CreateTempSubdirectory("tastingkit-hostile-");
        try
        {
            HostileLog.Write(folder.FullName, HostileTexts.All);
            var log = TastingLog.Read(folder.FullName);
            Assert.Equal(12 * HostileTexts.All.Count, log.Tastings.Count);
            log.Write(folder.FullName, overwrite: true);
            var again = TastingLog.Read(folder.FullName);
            foreach (var place in HostileLog.Places)
            {
                Assert.NotEmpty(HeldTexts.Of(log, place));
                Assert.Equal(HeldTexts.Of(log, place), HeldTexts.Of(again, place));
            }

            output.WriteLine($"{HostileTexts.All.Count} texts in {HostileLog.Places.Count} places written and read back.");
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static bool IsSeen(string shown, string value) =>
        HostileText.Ink(value).Length > 0 ? HostileText.IsSeenIn(shown, value) : shown.Contains('\uFFFD', StringComparison.Ordinal);

    /// <summary>Markdown as it is read: an escaped sign is the sign, an entity what it stands for.</summary>
    private static string Unescaped(string markdown) => WebUtility.HtmlDecode(Regex.Replace(markdown, @"\\([!-/:-@\[-`{-~])", "$1"));

    [GeneratedRegex("</?([a-z0-9]+)[^>]*>")]
    private static partial Regex Element();
}
