using System.Text.RegularExpressions;

namespace TastingKit.Tests.Rendering;

public sealed class RendererTests
{
    private const string Hostile = "<script>alert(1)</script> **a** | [b](http://example.org) \u202Egnp.exe\u001b[31m \"'&";

    private static ResultTable Table(string text, int rows = 2) => new(
        text,
        [
            new("what", text, ColumnKind.Text),
            new("cups", "Cups", ColumnKind.Count),
            new("estimate", "Estimate", ColumnKind.Number, "points"),
            new("interval", "Interval", ColumnKind.Interval),
            new("share", "Share", ColumnKind.Share),
        ],
        [.. Enumerable.Range(0, rows).Select(r => (IReadOnlyList<TableCell>)
        [
            new TableCell.Text(text),
            new TableCell.Count(r),
            r == 1 ? new TableCell.Missing("no cups") : new TableCell.Number(-1.5),
            new TableCell.Interval(r, 9.5 + r),
            new TableCell.Share(0.5),
        ])]);

    private static ResultLayout Layout(string text, int rows = 2) => new(
    [
        new LayoutBlock.Lead(text),
        new LayoutBlock.Paragraph(text),
        new LayoutBlock.Cautions([new Caution("few-cups", text), new Caution("two", text)]),
        new LayoutBlock.Table(Table(text, rows)),
        new LayoutBlock.Folded(text, [new LayoutBlock.Paragraph(text)]),
    ]);

    [Fact]
    public void Html_shows_every_text_as_text()
    {
        var html = HtmlRenderer.Render(Layout(Hostile));
        Assert.DoesNotContain("<script", html, StringComparison.Ordinal);
        Assert.DoesNotContain('\u202E', html);
        Assert.DoesNotContain('\u001b', html);
        // Lead, paragraph, two cautions, the table's title twice, a heading, two cells, the folded title and paragraph.
        Assert.Equal(11, Regex.Count(html, "&lt;script&gt;alert"));
        Assert.Equal(11, Regex.Count(html, "\uFFFDgnp.exe\uFFFD\\[31m &quot;&#39;&amp;"));
    }

    [Fact]
    public void Html_marks_headings_rows_and_numbers()
    {
        var html = HtmlRenderer.Render(Layout("x"));
        Assert.Contains("<th scope=\"col\">x</th><th scope=\"col\" class=\"tk-number\">Cups</th><th scope=\"col\" class=\"tk-number\">Estimate (points)</th>", html, StringComparison.Ordinal);
        Assert.Contains("<tr><th scope=\"row\">x</th><td class=\"tk-number\">1</td><td class=\"tk-number\">no cups</td>", html, StringComparison.Ordinal);
        Assert.Contains("<caption>x</caption>", html, StringComparison.Ordinal);
        Assert.Equal(2, Regex.Count(html, "<strong>Caution:</strong>"));
    }

    [Theory]
    [InlineData("2025-02-09", true)]
    [InlineData("6.50; 5.00", true)]
    [InlineData("blind", false)]
    [InlineData("lot 7", false)]
    [InlineData("1; 2; 3; 4; 5; 6; 7; 8; 9", false)]
    public void Html_keeps_a_date_or_a_few_scores_on_one_line(string text, bool kept)
    {
        var table = new ResultTable("x", [new("what", "x", ColumnKind.Text), new("day", "Day", ColumnKind.Text)], [[new TableCell.Text("x"), new TableCell.Text(text)]]);
        Assert.Contains($"<td{(kept ? " class=\"tk-figures\"" : "")}>{text}</td>", HtmlRenderer.Render(new ResultLayout([new LayoutBlock.Table(table)])), StringComparison.Ordinal);
    }

    [Fact]
    public void Html_opens_and_closes_its_elements_in_order()
    {
        var open = new Stack<string>();
        foreach (Match tag in Regex.Matches(HtmlRenderer.Render(Layout(Hostile, 40)), "<(/?)([a-z0-9]+)[^>]*>"))
        {
            if (tag.Groups[1].Length > 0)
                Assert.Equal(open.Pop(), tag.Groups[2].Value);
            else if (tag.Groups[2].Value != "input")
                open.Push(tag.Groups[2].Value);
        }

        Assert.Empty(open);
    }

    [Theory]
    [InlineData(12, false)]
    [InlineData(13, true)]
    public void A_long_table_keeps_all_its_rows_and_offers_to_show_them(int rows, bool isLong)
    {
        var html = HtmlRenderer.Render(Layout("x", rows));
        Assert.Equal(rows, Regex.Count(html, "<tr><th scope=\"row\">"));
        Assert.Equal(isLong, html.Contains($"Show all {rows} rows", StringComparison.Ordinal));
    }

    [Fact]
    public void The_stylesheet_hides_what_the_renderer_calls_long() =>
        Assert.Contains($"tr:nth-child(n+{HtmlRenderer.RowsSeen + 1})", Stylesheet.Css, StringComparison.Ordinal);

    [Fact]
    public void The_stylesheet_asks_for_nothing_and_keeps_to_the_kit()
    {
        Assert.DoesNotMatch("(?i)url\\(|@import|@font-face", Stylesheet.Css);
        var selectors = Regex.Matches(Regex.Replace(Stylesheet.Css, @"@[^{]*\{", ""), @"([^{}]+)\{[^{}]*\}").SelectMany(m => m.Groups[1].Value.Split(','));
        Assert.All(selectors, selector => Assert.Contains(".tk", selector, StringComparison.Ordinal));
    }

    [Fact]
    public void Markdown_shows_every_text_as_text()
    {
        var markdown = MarkdownRenderer.Render(Layout(Hostile));
        Assert.DoesNotContain("<script", markdown, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"(?<!\\)\*\*a", markdown);
        Assert.DoesNotMatch(@"(?<!\\)\[b", markdown);
        // Pipes inside cells would make columns: five columns have six unescaped pipes in every row.
        var rows = markdown.Split('\n').Where(line => line.StartsWith('|')).ToArray();
        Assert.Equal(4, rows.Length);
        Assert.All(rows, row => Assert.Equal(6, Regex.Count(row, @"(?<!\\)\|")));
    }

    [Fact]
    public void Markdown_is_plain_to_read()
    {
        Assert.Equal(
            "**All well\\.**\n\n> Caution: Few cups\\.\n>\n> Caution: One day\\.\n\nCups\n\n| Coffee | Interval |\n| --- | ---: |\n| Halo-Ridge\\! | 7.25 to 8.50 |\n\n*How*\n\nBy hand\\.\n",
            MarkdownRenderer.Render(new ResultLayout(
            [
                new LayoutBlock.Lead("All well."),
                new LayoutBlock.Cautions([new Caution("a", "Few cups."), new Caution("b", "One day.")]),
                new LayoutBlock.Table(new ResultTable(
                    "Cups",
                    [new("what", "Coffee", ColumnKind.Text), new("interval", "Interval", ColumnKind.Interval)],
                    [[new TableCell.Text("Halo-Ridge!"), new TableCell.Interval(7.25, 8.5)]])),
                new LayoutBlock.Folded("How", [new LayoutBlock.Paragraph("By hand.")]),
            ])));
    }

    [Fact]
    public void Text_aligns_numbers_and_breaks_long_words_below_themselves()
    {
        var table = new ResultTable(
            "Cups",
            [new("what", "Coffee", ColumnKind.Text), new("cups", "Cups", ColumnKind.Count)],
            [
                [new TableCell.Text("one two three four five six seven eight"), new TableCell.Count(7)],
                [new TableCell.Text(new string('x', 40)), new TableCell.Count(12345)],
            ]);
        Assert.Equal(
            """
            Cups
            Coffee                               Cups
            one two three four five six seven       7
            eight
            xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx  12345
            xxxxxx

            """,
            TextRenderer.Render(new ResultLayout([new LayoutBlock.Table(table)])));
    }

    [Fact]
    public void Text_gives_a_terminal_nothing_to_obey()
    {
        var text = TextRenderer.Render(Layout(Hostile));
        Assert.DoesNotContain('\u001b', text);
        Assert.Contains("\uFFFD[31m", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Bounds_of_intervals_stand_below_each_other()
    {
        var cells = CellText.Of(Table("x"));
        Assert.Equal(["Interval", "0.00 to \u20079.50", "1.00 to 10.50"], cells.Select(row => row[3]));
    }

    [Fact]
    public void Every_renderer_shows_every_row_caution_and_sentence()
    {
        var layout = new ResultLayout(
        [
            new LayoutBlock.Lead("alpha"),
            new LayoutBlock.Paragraph("bravo"),
            new LayoutBlock.Cautions([new Caution("c", "charlie")]),
            new LayoutBlock.Table(new ResultTable("delta", [new("what", "echo", ColumnKind.Text)], [[new TableCell.Text("foxtrot")], [new TableCell.Missing("golf")]])),
            new LayoutBlock.Folded("hotel", [new LayoutBlock.Paragraph("india")]),
        ]);
        string[] words = ["alpha", "bravo", "charlie", "delta", "echo", "foxtrot", "golf", "hotel", "india"];
        foreach (var rendered in new[] { HtmlRenderer.Render(layout), MarkdownRenderer.Render(layout), TextRenderer.Render(layout) })
            Assert.All(words, word => Assert.Contains(word, rendered, StringComparison.Ordinal));
    }
}
