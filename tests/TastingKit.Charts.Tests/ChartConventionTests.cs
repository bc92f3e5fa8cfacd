using System.Globalization;
using System.Text.Json;

namespace TastingKit.Charts.Tests;

/// <summary>What holds of every chart: text stays text, nothing is drawn from nothing, the same result gives the same bytes.</summary>
public sealed class ChartConventionTests
{
    private static readonly string Long = new('W', 100_000);

    private static Chart[] All(string? name = null) =>
    [
        SampleResults.Favourites(name: name is null ? null : i => name + i).Chart(),
        SampleResults.Favourites(name: name is null ? null : i => name + i).TopChart(),
        SampleResults.Groups(Factor.Country, name: name is null ? null : i => name + i).Chart(),
        SampleResults.Methods(name: name is null ? null : i => name + i).Chart(),
        SampleResults.Rest().Chart(),
        SampleResults.Calendar(changes: name is null ? SampleResults.Changes : [new EquipmentChange(new DateOnly(2025, 3, 1), name, name, name)]).Chart(),
        SampleResults.Year(note: name is null ? null : i => name + i).Chart(),
        SampleResults.Year(note: name is null ? null : i => name + i).NotesChart(),
        SampleResults.Slopes(name: name is null ? null : i => name + i).Chart(),
        SampleResults.Profile(name: name is null ? null : i => name + i).Chart(),
        SampleResults.Deviations(name: name is null ? null : i => name + i).Chart(),
        SampleResults.Deviations(true, name: name is null ? null : i => name + i).Chart(),
        SampleResults.OneOffs(60, name: name).Chart(),
        SampleResults.Timeline(name: name is null ? null : i => name + i).Chart(),
        SampleResults.Timeline(80, 10, name is null ? null : i => name + i).Chart(),
        SampleResults.Precision().Chart(),
        SampleResults.Precision(withRepeats: false).Chart(),
        SampleResults.NextBrew(name: name is null ? null : i => name + i).Chart(),
        SampleResults.NextBrew(isProbability: true, name: name is null ? null : i => name + i).Chart(),
        SampleResults.Drift().Chart(),
        SampleResults.Drift().AnchorsChart(),
        SampleResults.Drift(anchored: false).Chart(),
        SampleResults.Drift(anchored: false).GivenRestSlope(-0.2, -0.1).Chart(),
        SampleResults.Rise(name: name).Chart(),
        SampleResults.Steps(attribute: name).Chart(),
        SampleResults.Steps(attribute: name).MovementChart(),
        SampleResults.Label(name: name is null ? null : i => name + i).Chart(),
        SampleResults.OneScale().Chart(),
        SampleResults.OneScaleFavourites(name: name).Chart(),
        SampleResults.Doses().Chart(),
        SampleResults.Peaks(1).Chart(),
        SampleResults.Peaks(name: name is null ? null : i => name + i).Chart(),
    ];

    [Fact]
    public void Markup_in_a_log_is_shown_as_text()
    {
        foreach (var chart in All(SampleResults.Hostile))
        {
            var figure = Figure.Of(chart);
            var texts = Strings(figure.Layout).Concat(figure.Traces.SelectMany(Strings)).ToArray();
            Assert.All(texts, text =>
            {
                // Bold headings and line breaks are the charts' own; all else a log might bring is written as entities.
                var rest = text.Replace("<b>", "", StringComparison.Ordinal).Replace("</b>", "", StringComparison.Ordinal).Replace("<br>", "", StringComparison.Ordinal);
                Assert.DoesNotContain('<', rest);
                Assert.DoesNotContain('$', rest);
                Assert.DoesNotContain("%{", rest, StringComparison.Ordinal);
                Assert.DoesNotContain('\u202e', rest);
            });
            Assert.DoesNotContain("<a ", chart.ToHtml(), StringComparison.Ordinal);
            Assert.DoesNotContain("<b>", chart.ToHtml(), StringComparison.Ordinal);
            Assert.DoesNotContain("</script> ", chart.ToHtml(), StringComparison.Ordinal);
        }

        var labels = Figure.Of(SampleResults.Favourites(name: i => SampleResults.Hostile + i).Chart()).Annotations;
        Assert.StartsWith("1. &lt;b&gt;Bold&lt;/b&gt; &lt;a href", labels[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Hover_shows_a_hostile_name_in_full_and_as_text()
    {
        var hover = Figure.Of(SampleResults.Favourites(name: _ => SampleResults.Hostile).Chart()).Marks("predicted score")[0].Hover!;
        Assert.StartsWith("<b>&lt;b&gt;Bold&lt;/b&gt; &lt;a</b><br>", hover, StringComparison.Ordinal);
        Assert.Contains("&#36;\\frac{1}{2}&#36; &#37;{x} &lt;/script&gt; &amp; txet", hover, StringComparison.Ordinal);
    }

    [Fact]
    public void A_name_of_any_length_leaves_room_for_the_rest()
    {
        foreach (var chart in All(Long))
        {
            var figure = Figure.Of(chart);
            Assert.All(figure.Annotations, text => Assert.InRange(text.Length, 1, 60));
            Assert.InRange(chart.Title.Length, 1, 600);
            Assert.InRange(figure.Chart.Subtitle.Length, 1, 1200);
            Assert.InRange(figure.Chart.AltText.Length, 1, 2000);
            Assert.InRange(figure.Chart.Figure.Length, 1, 60_000);
        }
    }

    [Fact]
    public void Labels_fit_the_narrowest_screen()
    {
        foreach (var chart in All().Concat(All(Long)))
        {
            var rows = Figure.Of(chart).Layout;
            if (!rows.TryGetProperty("annotations", out var annotations))
                continue;
            // What stands on one line at the left and at the right edge must not meet.
            foreach (var line in annotations.EnumerateArray().Where(a => a.TryGetProperty("yshift", out _))
                .GroupBy(a => (a.GetProperty("yref").GetString(), a.GetProperty("y").GetInt32(), a.GetProperty("yshift").GetInt32())))
                Assert.InRange(line.Sum(a => WidthOf(a.GetProperty("text").GetString()!)), 1, 342);
        }
    }

    [Fact]
    public void No_mark_says_more_than_its_chart_is_high()
    {
        // plotly.js sets lines 1.3 times 13 pixels apart, with 3 around them, and shows nothing of what is higher than the chart.
        Chart[] lowest =
        [
            SampleResults.Methods(levels: 2, name: LongName).Chart(), SampleResults.Favourites(count: 1, name: LongName).Chart(), SampleResults.Favourites(count: 1, name: LongName).TopChart(),
            SampleResults.Groups(Factor.Country, count: 1, name: LongName).Chart(), SampleResults.Slopes(count: 1, name: LongName).Chart(), SampleResults.Profile(attributes: 1, name: LongName).Chart(),
            SampleResults.Deviations(count: 1, name: LongName).Chart(), SampleResults.Year(notes: 1, note: LongName).NotesChart(), SampleResults.OneOffs(1, flagged: 0, name: Long).Chart(),
            SampleResults.NextBrew(count: 1, name: LongName).Chart(), SampleResults.NextBrew(count: 1, isProbability: true, name: LongName).Chart(),
        ];
        foreach (var figure in All().Concat(All(Long)).Concat(lowest).Select(Figure.Of))
        {
            var hovers = figure.Traces.Where(trace => trace.TryGetProperty("hovertext", out _)).SelectMany(trace => Figure.Texts(trace, "hovertext")).ToArray();
            Assert.NotEmpty(hovers);
            Assert.All(hovers, hover => Assert.InRange(6 + (1.3 * 13 * hover.Split("<br>").Length), 1, figure.Chart.Height));
        }

        static string LongName(int number) => Long + number;
    }

    [Fact]
    public void Every_chart_says_its_finding_counts_and_figures()
    {
        foreach (var chart in All())
        {
            var drawn = Assert.IsType<Chart.Drawn>(chart);
            Assert.EndsWith(".", drawn.Title, StringComparison.Ordinal);
            Assert.Matches(@"\d+ (cups|notes|with a score)", drawn.Subtitle);
            Assert.Matches(@"9\d(\.\d)? % (interval|band)|Probability of|no intervals", drawn.Subtitle);
            Assert.Matches(@"\d", drawn.AltText);
            Assert.True(drawn.Height is >= 150 and <= 2000);
        }

        Assert.Contains("1. Kersa Dabo (Hollow Lane) 8.40 (7.90 to 8.95), plain mean 8.90, 2 cups", Figure.Of(All()[0]).Chart.AltText, StringComparison.Ordinal);
        Assert.Contains("cone dripper \u2212 steep-and-release +0.86 (+0.56 to +1.18), higher, matters, 120 and 65 cups, 18 coffees with both", Figure.Of(All()[3]).Chart.AltText, StringComparison.Ordinal);
        Assert.Contains("peak on day 20, 95 % interval day 14 to 27", Figure.Of(All()[4]).Chart.AltText, StringComparison.Ordinal);
        Assert.Contains("2025-01 6.80 (6.50 to 7.15), 28 cups", Figure.Of(All()[5]).Chart.AltText, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_support_a_chart_gives_the_reason_and_what_to_log()
    {
        var none = Support.Missing("The log has 3 scored cups.", "Score at least 20 cups.");
        var favourites = new Favourites([], 1, SampleResults.Brew, SampleResults.Scale, [], SampleResults.Computation(3), none, _ => SampleResults.Groups(Factor.Process));
        Chart[] charts =
        [
            favourites.Chart(), favourites.TopChart(),
            new FavouriteGroups(Factor.Process, [], SampleResults.Brew, SampleResults.Scale, [], SampleResults.Computation(3), none).Chart(),
            new MethodEffects(Factor.Brewer, TastingAttribute.Score, [], 0.95, 0.5, SampleResults.Scale, [], SampleResults.Computation(3), none).Chart(),
            new MethodSlopes(TastingAttribute.Score, [], [], 0.5, SampleResults.Scale, [], SampleResults.Computation(3), none).Chart(),
            new MethodProfile(Factor.Brewer, [], [], 0.95, [], SampleResults.Computation(3), none).Chart(),
            new MethodDeviations(Factor.Brewer, TastingAttribute.Score, Factor.Coffee, [], null, 0.5, SampleResults.Scale, [], SampleResults.Computation(3), none).Chart(),
            new RestCourse([], [], new RestShape.Undetermined("none"), SampleResults.Brew, SampleResults.Scale, [], SampleResults.Computation(3), none).Chart(),
            new CalendarCourse(TastingAttribute.Score, "month", [], null, null, [], SampleResults.Scale, [], SampleResults.Computation(3), none).Chart(),
            new LoggedYear(0, 0, 0, 0, 0, [], [], [], SampleResults.Computation(0), none).Chart(),
            new LoggedYear(0, 0, 0, 0, 0, [], [], [], SampleResults.Computation(0), none).NotesChart(),
            SampleResults.Precision(support: none).Chart(),
            SampleResults.Drift(support: none).Chart(),
            SampleResults.Drift(support: none).AnchorsChart(),
            SampleResults.Drift(support: none).GivenRestSlope(0).Chart(),
            SampleResults.Rise(support: none).Chart(),
            SampleResults.OneScale(none).Chart(),
            SampleResults.OneScaleFavourites(support: none).Chart(),
            SampleResults.Doses(none).Chart(),
            SampleResults.Peaks(0, support: none).Chart(),
            SampleResults.Steps(support: none).Chart(),
            SampleResults.Label(support: none).Chart(),
        ];
        Assert.All(charts, chart =>
        {
            var nothing = Assert.IsType<Chart.NothingToDraw>(chart);
            Assert.EndsWith("?", nothing.Title, StringComparison.Ordinal);
            Assert.Equal("The log has 3 scored cups. Score at least 20 cups.", nothing.Reason);
        });
    }

    [Fact]
    public void Without_anything_to_show_there_is_no_empty_chart()
    {
        Assert.Equal("No note was named in three coffees with at least two cups each.", Assert.IsType<Chart.NothingToDraw>(SampleResults.Year(notes: 0).NotesChart()).Reason);
        Assert.IsType<Chart.NothingToDraw>(SampleResults.Rest(days: 1).Chart());
    }

    [Fact]
    public void The_same_result_gives_the_same_bytes_whatever_the_culture()
    {
        var before = All().Select(chart => chart.ToHtml()).ToArray();
        var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        comma.NumberFormat.NumberDecimalSeparator = ",";
        comma.NumberFormat.NegativeSign = "~";
        comma.DateTimeFormat.ShortDatePattern = "dd/MM/yy";
        var culture = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = comma;
            Assert.Equal(before, All().Select(chart => chart.ToHtml()));
        }
        finally
        {
            CultureInfo.CurrentCulture = culture;
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(200)]
    public void Any_number_of_rows_is_drawn(int count)
    {
        Chart[] charts =
        [
            SampleResults.Favourites(count).Chart(), SampleResults.Favourites(count).TopChart(), SampleResults.Groups(Factor.Roaster, count).Chart(),
            SampleResults.Methods(Math.Min(count + 1, 30)).Chart(), SampleResults.Calendar(count).Chart(), SampleResults.Peaks(count).Chart(), SampleResults.Calendar(Math.Min(count, 80), "year").Chart(),
            SampleResults.Calendar(count, "quarter").Chart(), SampleResults.Year(count, count).Chart(), SampleResults.Year(count, count).NotesChart(),
            SampleResults.Slopes(count).Chart(), SampleResults.Profile(count).Chart(), SampleResults.Deviations(true, count).Chart(),
            SampleResults.Steps(Math.Min(count + 1, 12), Math.Min(count + 2, 60)).Chart(), SampleResults.Steps(Math.Min(count + 1, 12), Math.Min(count + 2, 12)).MovementChart(),
            SampleResults.Label(Math.Min(count, 15)).Chart(),
        ];
        Assert.All(charts, chart => Assert.InRange(Assert.IsType<Chart.Drawn>(chart).Height, 120, 2000));
    }

    /// <summary>Pixels of a label at the size a phone gets, in a sans-serif face on the wide side.</summary>
    private static double WidthOf(string label)
    {
        var text = label.Replace("&lt;", "<", StringComparison.Ordinal).Replace("&gt;", ">", StringComparison.Ordinal).Replace("&amp;", "&", StringComparison.Ordinal).Replace("&#37;", "%", StringComparison.Ordinal);
        return text.Sum(character => character switch { 'W' or 'M' => 12, _ when char.IsUpper(character) => 8, _ => 6.2 });
    }

    private static IEnumerable<string> Strings(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.String => [element.GetString()!],
        JsonValueKind.Array => element.EnumerateArray().SelectMany(Strings),
        JsonValueKind.Object => element.EnumerateObject().SelectMany(property => Strings(property.Value)),
        _ => [],
    };
}
