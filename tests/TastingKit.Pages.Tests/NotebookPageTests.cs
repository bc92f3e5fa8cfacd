using System.Text.RegularExpressions;
using Plotly.NET;
using TastingKit.Charts;
using Chart = TastingKit.Charts.Chart;

namespace TastingKit.Pages.Tests;

public sealed class NotebookPageTests
{
    private const string Hostile = "</title></pre></script><script>alert(1)</script><img src=https://example.org/x onerror=alert(2)>";

    internal static Chart SmallChart(string title = "Scores rise")
    {
        var trace = new Trace("scatter");
        trace.SetProperty("x", new[] { 1.0, 2.0, 3.0 });
        trace.SetProperty("y", new[] { 2.0, 1.0, 3.0 });
        return Chart.Draw(title, "3 cups", "Three dots that rise.", [trace], new Layout());
    }

    [Fact]
    public void Prose_code_and_outputs_come_in_their_order()
    {
        var page = NotebookPage.Write(
            Notebooks.Of(("markdown", "# Title\n\nBefore."), ("code", "var x = 1;\nx"), ("markdown", "After **all**.")),
            Notebooks.Outputs([new CellOutput.Printed(false, "said"), Notebooks.Html("<p>shown</p>")]),
            "my-year");
        Assert.Matches(
            """(?s)<title>Title</title>.*<h1 id="at-title">Title</h1>.*Before\..*<summary>Code 1</summary>.*var x = 1;\nx</code>.*>said</pre>.*<p>shown</p>.*After <strong>all</strong>\..*from the log my-year with the notebook small\.ipynb""",
            page);
    }

    [Fact]
    public void The_same_notebook_and_outputs_give_the_same_bytes()
    {
        string Write() => NotebookPage.Write(Notebooks.Of(("markdown", "# A"), ("code", "1")), Notebooks.Outputs([Notebooks.Html(SmallChart().ToHtml())]));
        Assert.Equal(Write(), Write());
    }

    [Fact]
    public void Plotly_is_on_the_page_once_and_only_if_there_is_a_chart()
    {
        var setUp = Notebooks.Html(PlotlyLoader.HtmlWithStylesheet);
        var notebook = Notebooks.Of(("code", "1"), ("code", "2"), ("code", "3"));
        var drawn = NotebookPage.Write(notebook, Notebooks.Outputs([setUp], [Notebooks.Html(SmallChart().ToHtml())], [Notebooks.Html(SmallChart().ToHtml())]));
        Assert.Equal(1, Regex.Count(drawn, "window.tastingKitCharts = true"));
        Assert.Equal(2, Regex.Count(drawn, "<figure"));

        var bare = NotebookPage.Write(notebook, Notebooks.Outputs([setUp], [Notebooks.Html(Chart.Nothing("Why", "No cups.").ToHtml())]));
        Assert.DoesNotContain("tastingKitCharts", bare, StringComparison.Ordinal);
    }

    [Fact]
    public void Text_from_everywhere_is_shown_as_text()
    {
        var page = NotebookPage.Write(
            Notebooks.Of(("markdown", $"# {Hostile}\n\n{Hostile}\n\n## {Hostile}\n\n## {Hostile}"), ("code", Hostile), ("raw", Hostile), ("code", "2")),
            Notebooks.Outputs([new CellOutput.Printed(false, Hostile), new CellOutput.Printed(true, Hostile)], [Notebooks.Shown("text/plain", Hostile), Notebooks.Shown("text/markdown", Hostile)]),
            Hostile);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<img", page, StringComparison.Ordinal);
        Assert.Equal(Regex.Count(page, "&lt;script&gt;alert"), Regex.Count(page, "alert\\(1\\)"));
        // Title, four pieces of prose, two entries of the contents, two cells, four outputs, the log's name.
        Assert.Equal(14, Regex.Count(page, "&lt;script&gt;alert"));
    }

    [Fact]
    public void Prose_keeps_links_that_lead_somewhere_and_pictures_that_it_carries()
    {
        var json = Notebooks.Json(("markdown",
            "[web](https://example.org/a) [mail](mailto:a@example.org) [here](#at-x) [script](javascript:alert(1)) [file](other.ipynb) <vbscript:x> <https://example.org/b>\n\n" +
            "![own](attachment:a.png) ![remote](https://example.org/x.png) ![data](data:image/png;base64,AAAA) ![page](data:text/html,x)"));
        json["cells"]![0]!["attachments"] = System.Text.Json.Nodes.JsonNode.Parse("""{"a.png":{"image/png":"BBBB"}}""");
        var page = NotebookPage.Write(NotebookDocument.Parse("n", json.ToJsonString()), Notebooks.Outputs());
        var main = page[page.IndexOf("<main", StringComparison.Ordinal)..];

        Assert.Equal(["https://example.org/a", "mailto:a@example.org", "#at-x", "https://example.org/b"], Regex.Matches(main, "href=\"([^\"]*)\"").Select(m => m.Groups[1].Value));
        Assert.Equal(["data:image/png;base64,BBBB", "data:image/png;base64,AAAA"], Regex.Matches(main, "src=\"([^\"]*)\"").Select(m => m.Groups[1].Value));
        Assert.Contains("script file vbscript:x", main, StringComparison.Ordinal);
        Assert.Contains("remote", main, StringComparison.Ordinal);
    }

    [Fact]
    public void Headings_are_listed_and_can_be_reached()
    {
        var page = NotebookPage.Write(Notebooks.Of(("markdown", "# Top"), ("markdown", "## Same\n\n### `Code` & more"), ("markdown", "## Same\n\n#### Deep")), Notebooks.Outputs());
        var listed = Regex.Matches(page, "<li class=\"tk-level-(\\d)\"><a href=\"#([^\"]+)\">([^<]+)</a>");
        Assert.Equal(["2 Same", "3 Code &amp; more", "2 Same"], listed.Select(m => $"{m.Groups[1].Value} {m.Groups[3].Value}"));
        Assert.Equal(3, listed.Select(m => m.Groups[2].Value).Distinct().Count());
        Assert.All(listed, m => Assert.Single(Regex.Matches(page, $"id=\"{m.Groups[2].Value}\"")));
    }

    [Fact]
    public void Pictures_made_by_a_cell_are_shown_as_data()
    {
        var page = NotebookPage.Write(Notebooks.Of(("code", "1")), Notebooks.Outputs([Notebooks.Shown("image/png", "AAAA\nBBBB"), Notebooks.Shown("image/svg+xml", "<svg onload='x'/>")]));
        Assert.Contains("src=\"data:image/png;base64,AAAABBBB\"", page, StringComparison.Ordinal);
        Assert.Contains("src=\"data:image/svg+xml;base64,PHN2ZyBvbmxvYWQ9J3gnLz4=\"", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<svg", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_on_the_page_asks_for_anything()
    {
        var page = NotebookPage.Write(Notebooks.Of(("markdown", "# A"), ("code", "1")), Notebooks.Outputs([Notebooks.Html(SmallChart().ToHtml())]));
        Assert.Contains("content=\"default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'\"", page, StringComparison.Ordinal);
        Assert.DoesNotMatch("(?i)(src|srcset|action|poster|data|background)\\s*=\\s*[\"']?(https?:)?//", page);
        Assert.DoesNotMatch("(?i)@import|url\\s*\\(", page);
        Assert.Equal(["data:,"], Regex.Matches(page, "<link[^>]*href=\"([^\"]*)\"").Select(m => m.Groups[1].Value));
    }
}
