using System.Text.Json;
using Plotly.NET;

namespace TastingKit.Charts.Tests;

public sealed class ChartTests
{
    private const string Hostile = "</script><img src=x onerror=alert(1)>\u2028\"'&";

    private static Trace Dots(params ReadOnlySpan<(string, object?)> more) =>
        FigurePart.Trace("scatter", ("x", new[] { 1.0, 2.5 }), ("y", new[] { "one", "two" })).With(more);

    private static Chart.Drawn Draw(Trace trace, Layout? layout = null) =>
        (Chart.Drawn)Chart.Draw("Title", "2 cups", "Two dots.", [trace], layout ?? new Layout());

    [Fact]
    public void A_figure_holds_traces_and_layout_as_given()
    {
        var trace = Dots(
            ("marker", FigurePart.Of(("color", Color.fromHex("#123456")), ("size", 9), ("opacity", 0.5))),
            ("customdata", new object[] { new object[] { "a", 1, true }, new object[] { "b", new DateOnly(2025, 3, 4), double.NaN } }));
        var chart = Draw(trace, FigurePart.Layout(("height", 300), ("xaxis", FigurePart.Of(("range", new[] { -0.0, 9 })))));

        Assert.Equal(
            """
            {"data":[{"type":"scatter","x":[1,2.5],"y":["one","two"],"marker":{"color":"rgba(18,52,86,1)","size":9,"opacity":0.5},"customdata":[["a",1,true],["b","2025-03-04",null]]}],"layout":{"height":300,"xaxis":{"range":[0,9]}}}
            """,
            chart.Figure);
        Assert.Equal(300, chart.Height);
    }

    [Fact]
    public void A_figure_does_not_change_when_its_trace_does()
    {
        var trace = Dots();
        var chart = Draw(trace);
        var before = chart.Figure;
        trace.SetProperty("x", new[] { 7.0 });
        Assert.Equal(before, chart.Figure);
    }

    [Fact]
    public void Numbers_that_differ_in_their_last_bits_are_written_alike() =>
        Assert.Equal(Draw(Dots(("z", 0.1 + 0.2))).Figure, Draw(Dots(("z", 0.3))).Figure);

    [Fact]
    public void A_figure_refuses_what_it_cannot_hold() =>
        Assert.Contains("System.Guid", Assert.Throws<ArgumentException>(() => Draw(Dots(("x", Guid.Empty)))).Message, StringComparison.Ordinal);

    [Fact]
    public void Title_subtitle_and_description_are_shown_as_text()
    {
        var html = Chart.Draw(Hostile, Hostile, Hostile, [Dots()], new Layout()).ToHtml();
        Assert.DoesNotContain("<img", html, StringComparison.Ordinal);
        Assert.Equal(4, html.Split("&lt;/script&gt;&lt;img src=x onerror=alert(1)&gt;").Length - 1);
        Assert.Contains("&quot;&#39;&amp;", html, StringComparison.Ordinal);
    }

    [Fact]
    public void Text_inside_a_figure_can_neither_end_its_script_nor_bring_a_tag()
    {
        var chart = Draw(Dots(("text", Hostile), ("name", "<a href='https://example.org'>x</a>"), ("hovertemplate", "<b>%{x}</b><br><extra></extra>")));
        Assert.DoesNotContain('<', chart.Figure);
        Assert.DoesNotContain('\u2028', chart.Figure);

        var trace = JsonDocument.Parse(chart.Figure).RootElement.GetProperty("data")[0];
        Assert.StartsWith("&lt;/script>&lt;img ", trace.GetProperty("text").GetString(), StringComparison.Ordinal);
        Assert.Equal("&lt;a href='https://example.org'>x&lt;/a>", trace.GetProperty("name").GetString());
        Assert.Equal("<b>%{x}</b><br><extra></extra>", trace.GetProperty("hovertemplate").GetString());
    }

    [Fact]
    public void Literal_text_has_no_meaning_left_to_plotly() =>
        Assert.Equal("&lt;b&gt; &amp;lt; &#36;5&#36; &#37;{x} \u00e9\u8c46", ChartText.Literal("<b> &lt; $5$ %{x}\n\u00e9\u8c46"));

    [Fact]
    public void Without_traces_there_is_no_chart()
    {
        var error = Assert.Throws<ArgumentException>(() => Chart.Draw("Title", "", "Words", [], new Layout()));
        Assert.Contains(nameof(Chart.Nothing), error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_to_draw_says_why()
    {
        var chart = Chart.Nothing("Did scores move?", "Every cup is of <one> day.");
        Assert.Equal("Did scores move?\nNo chart: Every cup is of <one> day.\n", chart.ToString());
        Assert.Contains("No chart: Every cup is of &lt;one&gt; day.", chart.ToHtml(), StringComparison.Ordinal);
        Assert.DoesNotContain("tk-chart-plot", chart.ToHtml(), StringComparison.Ordinal);
        Assert.Equal("""{"title":"Did scores move?","nothingToDraw":"Every cup is of \u003Cone\u003E day."}""", chart.ToJson());
        Assert.Equal("nothing", chart.Match(_ => "drawn", _ => "nothing"));
    }

    [Fact]
    public void The_figures_of_a_chart_can_be_offered_below_it()
    {
        var data = new ResultTable("Cups", [new("cups", "Cups", ColumnKind.Count)], [[new TableCell.Count(41)]]);
        var html = Chart.Draw("Title", "", "Words", [Dots()], new Layout(), data).ToHtml();
        Assert.Contains("<td class=\"tk-number\">41</td>", html, StringComparison.Ordinal);
    }

    [Fact]
    public void A_chart_as_json_holds_the_whole_of_it()
    {
        var json = JsonDocument.Parse(Draw(Dots()).ToJson()).RootElement;
        Assert.Equal("Two dots.", json.GetProperty("altText").GetString());
        Assert.Equal(2.5, json.GetProperty("figure").GetProperty("data")[0].GetProperty("x")[1].GetDouble());
    }
}
