namespace TastingKit.Charts.Tests;

/// <summary>What is drawn is what was found: every estimate, bound and count, on its own row and day.</summary>
public sealed class DrawnValuesTests
{
    [Fact]
    public void Favourites_are_drawn_where_the_result_has_them()
    {
        var favourites = SampleResults.Favourites();
        var figure = Figure.Of(favourites.Chart());
        var shown = favourites.Coffees.Take(20).ToArray();
        EqualRows(shown.Select(c => (c.Low, c.High)), figure.Lines("95 % interval"));
        EqualMarks(shown.Select(c => c.Estimate), figure.Marks("predicted score"));
        EqualMarks(shown.Select(c => c.PlainMean), figure.Marks("plain mean of the cups"));
        for (var i = 0; i < shown.Length; i++)
        {
            var coffee = shown[i].Coffee;
            Assert.Equal([ShortText.Cut($"{i + 1}. {coffee.Name}", 50 - NumberText.Count(shown[i].Cups, "cup").Length), NumberText.Count(shown[i].Cups, "cup"), coffee.Roaster!], figure.Annotations.Skip(3 * i).Take(3));
        }

        Assert.Equal(favourites.Finding, figure.Chart.Title);
        Assert.Contains("The 20 highest of 70 coffees, 480 cups", figure.Chart.Subtitle, StringComparison.Ordinal);
        Assert.Contains("95 % interval", figure.Chart.Subtitle, StringComparison.Ordinal);
        Assert.Contains("cone dripper, house recipe, 18 days of rest", figure.Chart.Subtitle, StringComparison.Ordinal);
    }

    /// <summary>Figures are written to nine decimals.</summary>
    private static void EqualNumbers(IEnumerable<double> expected, IReadOnlyList<double> drawn)
    {
        double[] all = [.. expected];
        Assert.Equal(all.Length, drawn.Count);
        for (var i = 0; i < all.Length; i++)
            Assert.Equal(all[i], drawn[i], 8);
    }

    [Fact]
    public void Parts_of_a_quarters_cups_are_drawn_a_panel_a_step_with_the_highest_on_top()
    {
        var use = SampleResults.Steps();
        var figure = Figure.Of(use.Chart());
        Assert.Equal(use.Finding, figure.Chart.Title);
        Assert.Equal(["<b>7.5 to 9.0</b>", "65 cups", "<b>7.0</b>", "58 cups"], figure.Annotations.Take(4));
        var sure = figure.Named("part of the quarter\u2019s cups", "markers").ToArray();
        var open = figure.Named("part of the quarter\u2019s cups, no interval", "markers").ToArray();
        var lines = figure.Named("95 % interval", "lines").ToArray();
        Assert.Equal(6, sure.Length);
        for (var panel = 0; panel < 6; panel++)
        {
            var shares = use.Quarters.Select(quarter => quarter.Groups[5 - panel]).ToArray();
            Assert.Equal(panel == 0 ? "y" : $"y{panel + 1}", sure[panel].GetProperty("yaxis").GetString());
            EqualNumbers(shares.Where(share => share.Interval is not null).Select(share => share.Share), Figure.Numbers(sure[panel], "y"));
            EqualNumbers([shares[2].Share], Figure.Numbers(open[panel], "y"));
            EqualNumbers(shares.Where(share => share.Interval is not null).SelectMany(share => new[] { share.Interval!.Low, share.Interval.High, double.NaN }), Figure.Numbers(lines[panel], "y"));
        }

        Assert.Contains("440 cups in all", figure.Chart.Subtitle, StringComparison.Ordinal);
        Assert.Contains("6 steps or groups of steps", figure.Chart.Subtitle, StringComparison.Ordinal);
        Assert.Contains("3 of 110 cups, 20 bags", Figure.Texts(sure[5], "hovertext")[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Where_steps_began_is_drawn_with_its_interval_against_no_movement()
    {
        var use = SampleResults.Steps();
        var told = (StepMovement.Estimated)use.Movement;
        var figure = Figure.Of(use.MovementChart());
        var marks = figure.Named("where the step began", "markers").ToArray();
        var lines = figure.Named("95 % interval", "lines").ToArray();
        double[] steps = [7.5, 7, 6.5, 6, 5.5];
        Assert.Equal(steps.Length, marks.Length);
        for (var panel = 0; panel < steps.Length; panel++)
        {
            var moves = told.Thresholds.Where(move => move.Step == steps[panel]).ToArray();
            EqualNumbers(moves.Select(move => move.Estimate), Figure.Numbers(marks[panel], "y"));
            EqualNumbers(moves.SelectMany(move => new[] { move.Low, move.High, double.NaN }), Figure.Numbers(lines[panel], "y"));
        }

        Assert.All(figure.Layout.GetProperty("shapes").EnumerateArray(), shape => Assert.Equal(0, shape.GetProperty("y0").GetDouble()));
        Assert.Equal("Whether steps moved can\u2019t be told: 40 cups. Go on logging.", Assert.IsType<Chart.NothingToDraw>(SampleResults.Steps(withModel: false).MovementChart()).Reason);
    }

    [Fact]
    public void What_a_label_does_is_drawn_apart_from_what_it_goes_with_and_from_the_weaker_comparison()
    {
        var effect = SampleResults.Label();
        var figure = Figure.Of(effect.Chart());
        Assert.Equal([0.31], figure.Marks("seeing the label").Select(mark => mark.At));
        EqualNumbers([0.2, 0.1, 0.0, -0.05], [.. figure.Marks("what it goes with, and order").Select(mark => mark.At)]);
        Assert.Equal([0.6], figure.Marks("outside pairs: weaker").Select(mark => mark.At));
        EqualRows(
            [(0.12, 0.5), (-0.1, 0.5), (-0.2, 0.5), (-0.3, 0.5), (-0.2, 0.1), (0.3, 0.9)],
            figure.Lines("95 % interval"));
        Assert.Equal(["Seeing the label, on average", "+0.31", "per pair", "60 cups"], figure.Annotations.Take(4));
        Assert.Contains("60 cups in 30 pairs of a coded cup and one whose label was seen", figure.Chart.Subtitle, StringComparison.Ordinal);
        Assert.Contains("Not answered: Peru against other countries", figure.Chart.Subtitle, StringComparison.Ordinal);
    }

    [Fact]
    public void One_offs_are_drawn_by_mark_and_name()
    {
        var oneOffs = SampleResults.OneOffs();
        var figure = Figure.Of(oneOffs.Chart());
        Assert.Equal(2, figure.Annotations.Count);
        Assert.Equal(oneOffs.Finding, figure.Chart.Title);
        Assert.Contains("200 cups", figure.Chart.Subtitle, StringComparison.Ordinal);
        Assert.Contains("2 of 200 cups flagged", figure.Chart.AltText, StringComparison.Ordinal);
        Assert.Empty(Figure.Of(SampleResults.OneOffs(flagged: 0).Chart()).Annotations);
    }

    [Fact]
    public void Gains_are_drawn_as_bars_from_nought_with_those_of_the_plan_marked()
    {
        var next = SampleResults.NextBrew();
        var figure = Figure.Of(next.Chart());
        var shown = next.Gains.Take(12).ToArray();
        EqualMarks(shown.Select(gain => 100 * gain.Gain), figure.Marks("cup of the plan", "other cup that can be brewed"));
        Assert.Equal([0, 2], figure.Marks("cup of the plan").Select(mark => mark.Row));
        EqualRows(shown.Select(gain => (0.0, 100 * gain.Gain)), [.. figure.Lines("cup of the plan").Concat(figure.Lines("other cup that can be brewed")).OrderBy(line => line.Row)]);
        Assert.Equal(["1. Kersa Dabo", "21.0: \u00b1 0.366", "cone dripper, roaster recipe", "3 cups"], figure.Annotations.Take(4));
        Assert.Contains("The 12 highest of 32 possible cups, from 446 cups so far", figure.Chart.Subtitle, StringComparison.Ordinal);
        Assert.Contains("After the 3 cups of the plan: \u00b1 0.310", figure.Chart.Subtitle, StringComparison.Ordinal);
        Assert.Contains("no. 1, 3 of the plan", figure.Marks("what each mark is")[0].Hover, StringComparison.Ordinal);

        var best = Figure.Of(SampleResults.NextBrew(isProbability: true).Chart());
        Assert.Equal("4.8: 47 &#37;", best.Annotations[1]);
        Assert.Contains("the best of 5 coffees, 42 % now", best.Chart.Subtitle, StringComparison.Ordinal);
    }

    [Fact]
    public void Precision_is_drawn_as_told_and_what_is_not_told_is_named()
    {
        var precision = SampleResults.Precision();
        var figure = Figure.Of(precision.Chart());
        EqualRows([(0.31, 0.6), (0.2, 0.55), (0, 0.28), (0.43, 0.51)], figure.Lines("95 % interval"));
        EqualMarks([0.41, 0.3, 0.2, 0.47], figure.Marks("blind repeats", "not repeatability"));
        Assert.Equal(["Repeatability: blind, one brew, one day", "0.41", "20 blind repeats in 20 sets of cups"], figure.Annotations.Take(3));
        Assert.DoesNotContain("Not told", figure.Chart.Subtitle, StringComparison.Ordinal);

        var without = Figure.Of(SampleResults.Precision(withRepeats: false).Chart());
        EqualMarks([0.2, 0.47], without.Marks("not repeatability"));
        Assert.Contains("Not told by this log: repeatability: blind, one brew, one day; repeats of a brew that was known.", without.Chart.Subtitle, StringComparison.Ordinal);
    }

    [Fact]
    public void Drift_is_a_line_of_pairs_that_the_assumptions_cut_and_a_log_alone_does_not()
    {
        var bare = Figure.Of(SampleResults.Drift(anchored: false).Chart());
        var line = bare.Named("pairs that fit the log alike").Single();
        var (x, y) = (Figure.Numbers(line, "x"), Figure.Numbers(line, "y"));
        Assert.All(x.Zip(y), pair => Assert.Equal(-0.06, pair.First + (pair.Second / 12), 6));
        Assert.All(Figure.Numbers(bare.Named("95 % band").Single(), "y").Zip(new[] { x[0], x[^1] }), pair => Assert.Equal(0.13, pair.Second + (pair.First / 12), 6));
        Assert.All(Figure.Numbers(bare.Named("lower bound").Single(), "y").Zip(new[] { x[0], x[^1] }), pair => Assert.Equal(-0.25, pair.Second + (pair.First / 12), 6));
        Assert.DoesNotContain(bare.Traces, trace => trace.GetProperty("mode").GetString() == "markers");
        Assert.Empty(bare.Layout.GetProperty("shapes").EnumerateArray());
        Assert.Contains("Nothing in this log marks a place on it.", bare.Chart.Subtitle, StringComparison.Ordinal);

        var anchored = Figure.Of(SampleResults.Drift().Chart());
        var marks = anchored.Traces.Where(trace => trace.GetProperty("mode").GetString() == "markers").ToArray();
        Assert.Equal([0.7, 1, 0.1], marks.Select(mark => Figure.Numbers(mark, "y")[0]));
        Assert.Equal((0.05, 1.35), (anchored.Layout.GetProperty("shapes")[0].GetProperty("y0").GetDouble(), anchored.Layout.GetProperty("shapes")[0].GetProperty("y1").GetDouble()));
        Assert.All(marks, mark => Assert.StartsWith("If ", mark.GetProperty("name").GetString(), StringComparison.Ordinal));
        EqualRows([(0.05, 1.35), (0.35, 1.65), (-1.4, 1.6)], Figure.Of(SampleResults.Drift().AnchorsChart()).Lines("95 % interval"));
        Assert.IsType<Chart.NothingToDraw>(SampleResults.Drift(anchored: false).AnchorsChart());

        var stated = Figure.Of(SampleResults.Drift(anchored: false).GivenRestSlope(-0.2, -0.1).Chart());
        Assert.Contains("as you state", stated.Chart.Title, StringComparison.Ordinal);
        Assert.Contains("what you state rest to do, which this log does not tell", stated.Chart.Subtitle, StringComparison.Ordinal);
    }

    [Fact]
    public void A_favourite_tells_its_figures_when_pointed_at()
    {
        var favourites = SampleResults.Favourites();
        var first = favourites.Coffees[0];
        var hover = Figure.Of(favourites.Chart()).Marks("predicted score")[0].Hover!.Replace("<br>", " ", StringComparison.Ordinal);
        foreach (var figure in new[]
        {
            first.Coffee.Name!, NumberText.Fixed(first.Estimate), NumberText.Interval(first.Low, first.High), NumberText.Fixed(first.PlainMean),
            NumberText.Count(first.Cups, "cup"), NumberText.Count(first.Bags, "bag"), $"{first.RankLow} to {first.RankHigh}", "46 &#37;",
        })
            Assert.Contains(figure, hover, StringComparison.Ordinal);
    }

    [Fact]
    public void Probabilities_of_the_top_are_drawn_likeliest_first()
    {
        var favourites = SampleResults.Favourites(40);
        var shown = favourites.Coffees.OrderByDescending(c => c.TopProbability).Take(20).ToArray();
        var figure = Figure.Of(favourites.TopChart());
        EqualMarks(shown.Select(c => c.TopProbability), figure.Marks("90 % or more", "10 % to 90 %", "under 10 %"));
        Assert.All(figure.Marks("90 % or more"), mark => Assert.True(mark.At >= 0.9));
        Assert.All(figure.Marks("10 % to 90 %"), mark => Assert.InRange(mark.At, 0.1, 0.9));
        Assert.All(figure.Marks("under 10 %"), mark => Assert.True(mark.At < 0.1));
        foreach (var name in new[] { "90 % or more", "10 % to 90 %", "under 10 %" })
            Assert.All(figure.Lines(name), line => Assert.True(line.From == 0 && Near(shown[line.Row].TopProbability, line.To)));
        Assert.Equal([0.1, 0.5, 0.9], Figure.Numbers(figure.Layout.GetProperty("xaxis"), "tickvals"));
        for (var i = 0; i < shown.Length; i++)
            Assert.Equal([ShortText.Cut(shown[i].Coffee.Name!, 50 - NumberText.Percent(shown[i].TopProbability).Length), ChartText.Literal(NumberText.Percent(shown[i].TopProbability)), shown[i].Coffee.Roaster!, NumberText.Count(shown[i].Cups, "cup")], figure.Annotations.Skip(4 * i).Take(4));
        Assert.Contains($"sure of {favourites.Coffees.Count(c => c.TopProbability >= 0.9)};", figure.Chart.Title, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1, 3, "The log is not sure which coffee is the best")]
    [InlineData(10, 40, "Of the best 10, the log is sure of 7")]
    public void The_top_is_worded_by_its_size(int top, int coffees, string finding)
    {
        var favourites = SampleResults.Favourites(coffees);
        Assert.Equal(top, favourites.TopCount);
        Assert.StartsWith(finding, favourites.TopChart().Title, StringComparison.Ordinal);
    }

    [Fact]
    public void Groups_are_drawn_where_the_result_has_them()
    {
        var groups = SampleResults.Groups(Factor.Country, 36);
        var figure = Figure.Of(groups.Chart());
        EqualRows(groups.Groups.Select(g => (g.Low, g.High)), figure.Lines("95 % interval"));
        EqualMarks(groups.Groups.Select(g => g.Estimate), figure.Marks("expected score"));
        EqualMarks(groups.Groups.Select(g => g.PlainMean), figure.Marks("plain mean of the cups"));
        Assert.Equal(groups.Groups.Select(g => g.Level), figure.Annotations.Where((_, i) => i % 2 == 0));
        Assert.Equal(groups.Groups.Select(g => $"{NumberText.Count(g.Cups, "cup")}, {NumberText.Count(g.Coffees, "coffee")}"), figure.Annotations.Where((_, i) => i % 2 == 1));
        Assert.Contains("36 compared by country, 480 cups", figure.Chart.Subtitle, StringComparison.Ordinal);
    }

    [Fact]
    public void Contrasts_are_drawn_with_their_sign_margin_and_counts()
    {
        var effects = SampleResults.Methods();
        var figure = Figure.Of(effects.Chart());
        EqualRows(effects.Contrasts.Select(c => (c.Answer.Low, c.Answer.High)), [.. figure.Traces.Where(t => t.GetProperty("hoverinfo").GetString() == "skip").Select(t => t.GetProperty("name").GetString()!).Distinct().Where(n => n is not ("ruler" or "guide")).SelectMany(figure.Lines).OrderBy(l => l.Row)]);
        var marks = figure.Marks("first scores higher", "first scores lower", "undecided");
        EqualMarks(effects.Contrasts.Select(c => c.Answer.Estimate), marks);
        Assert.All(figure.Marks("first scores higher"), mark => Assert.Equal(Direction.Higher, effects.Contrasts[mark.Row].Answer.Direction));
        Assert.All(figure.Marks("first scores lower"), mark => Assert.Equal(Direction.Lower, effects.Contrasts[mark.Row].Answer.Direction));
        Assert.All(figure.Marks("undecided"), mark => Assert.Equal(Direction.Undecided, effects.Contrasts[mark.Row].Answer.Direction));
        Assert.NotEmpty(figure.Marks("first scores lower"));

        var band = Assert.Single(figure.Layout.GetProperty("shapes").EnumerateArray());
        Assert.Equal((-0.5, 0.5), (band.GetProperty("x0").GetDouble(), band.GetProperty("x1").GetDouble()));
        var guide = figure.Named("guide").Single();
        Assert.All(Figure.Numbers(guide, "x").Where(x => !double.IsNaN(x)), x => Assert.Equal(0, x));
        foreach (var c in effects.Contrasts)
        {
            Assert.Contains($"{c.First} \u2212 {c.Second}", figure.Annotations);
            Assert.Contains($"{c.FirstCups} and {c.SecondCups} cups, {NumberText.Count(c.SharedCoffees, "coffee")}", figure.Annotations);
        }

        Assert.Equal("matters", figure.Annotations[2]);
        Assert.Equal("too small to matter", figure.Annotations[^1]);
        Assert.Contains("simultaneous", figure.Chart.Subtitle, StringComparison.Ordinal);
        Assert.Contains("margin of 0.50", figure.Chart.Subtitle, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Direction.Higher, Size.Matters, "matters")]
    [InlineData(Direction.Lower, Size.TooSmallToMatter, "too small to matter")]
    [InlineData(Direction.Higher, Size.Undecided, "size undecided")]
    [InlineData(Direction.Undecided, Size.TooSmallToMatter, "too small to matter")]
    [InlineData(Direction.Undecided, Size.Undecided, "undecided")]
    public void No_count_of_a_contrast_is_cut_for_its_size_in_words(Direction direction, Size size, string words)
    {
        var contrast = new MethodContrast("brewer", "cone dripper", "flat-bed dripper", new MethodAnswer(0.7, 0.6, 0.8, 0.62, 0.78, direction, size), 8834, 9345, 812, FurtherCups.None);
        var effects = new MethodEffects(Factor.Brewer, TastingAttribute.Score, [contrast], 0.95, 0.5, SampleResults.Scale, [], SampleResults.Computation(20_000), Support.Given);
        Assert.Equal(["cone dripper \u2212 flat-bed dripper", "8834 and 9345 cups, 812 coffees", words], Figure.Of(effects.Chart()).Annotations);
    }

    [Fact]
    public void Slopes_are_drawn_with_their_sign_margin_and_counts()
    {
        var slopes = SampleResults.Slopes();
        var figure = Figure.Of(slopes.Chart());
        EqualMarks(slopes.Slopes.Select(s => s.Answer.Estimate), figure.Marks("a step more scores higher", "a step more scores lower", "undecided"));
        Assert.All(figure.Marks("a step more scores lower"), mark => Assert.Equal(Direction.Lower, slopes.Slopes[mark.Row].Answer.Direction));
        var band = Assert.Single(figure.Layout.GetProperty("shapes").EnumerateArray());
        Assert.Equal((-0.5, 0.5), (band.GetProperty("x0").GetDouble(), band.GetProperty("x1").GetDouble()));
        Assert.Contains("water temperature, 5 °C more", figure.Annotations);
        Assert.Contains("430 cups, 41 coffees", figure.Annotations);
    }

    [Fact]
    public void Attributes_are_drawn_as_shares_of_their_scale_where_the_factor_makes_a_difference()
    {
        var profile = SampleResults.Profile();
        var figure = Figure.Of(profile.Chart());
        var drawn = profile.Selected.SelectMany(e => e.Contrasts).ToArray();
        var marks = figure.Marks("first scores higher", "first scores lower", "undecided");
        Assert.Equal(drawn.Select(c => Math.Round(c.Answer.Estimate / 15, 8)).Order(), marks.Select(m => Math.Round(m.At, 8)).Order());
        var band = Assert.Single(figure.Layout.GetProperty("shapes").EnumerateArray());
        Assert.Equal((-0.0625, 0.0625), (band.GetProperty("x0").GetDouble(), band.GetProperty("x1").GetDouble()));
        Assert.Contains("97.9 % interval", figure.Chart.Subtitle, StringComparison.Ordinal);
        Assert.Equal(["<b>acidity</b>", "<b>body</b>"], figure.Annotations.Where(text => text.StartsWith("<b>", StringComparison.Ordinal)));
    }

    [Fact]
    public void Differences_of_processes_and_coffees_are_drawn_where_the_result_has_them()
    {
        var byProcess = SampleResults.Deviations();
        var panels = Figure.Of(byProcess.Chart());
        var marks = panels.Marks("first scores higher", "first scores lower", "undecided");
        Assert.Equal(byProcess.Deviations.OrderBy(d => d.Level, StringComparer.Ordinal).Select(d => Math.Round(d.Answer.Estimate, 8)), marks.Select(m => Math.Round(m.At, 8)));
        // A panel a process: a heading, then its three pairs.
        Assert.Equal([1, 2, 3, 5, 6, 7, 9, 10, 11, 13, 14, 15], marks.Select(m => m.Row));
        Assert.Equal(["<b>honey</b>", "<b>natural</b>", "<b>washed</b>", "<b>wet-hulled</b>"], panels.Annotations.Where(text => text.StartsWith("<b>", StringComparison.Ordinal)));
        Assert.Equal(12, panels.Lines("95 % interval").Count);
        var byCoffee = SampleResults.Deviations(true, 60);
        var figure = Figure.Of(byCoffee.Chart());
        EqualMarks(byCoffee.Deviations.Take(12).Concat(byCoffee.Deviations.Skip(48)).Select(d => d.Answer.Estimate), figure.Marks("first scores higher", "first scores lower", "undecided"));
        Assert.Contains("The 12 highest and the 12 lowest of 60 differences", figure.Chart.Subtitle, StringComparison.Ordinal);
    }

    [Fact]
    public void The_whole_margin_is_on_the_scale_however_small_the_differences()
    {
        var figure = Figure.Of(SampleResults.Methods(2, 0.05).Chart());
        Assert.All(figure.Marks("first scores lower"), mark => Assert.InRange(mark.At, -0.4, -0.3));
        var range = Figure.Numbers(figure.Layout.GetProperty("xaxis"), "range");
        Assert.True(range[0] < -0.5 && range[1] > 0.5);
    }

    [Fact]
    public void The_course_over_rest_is_drawn_with_its_band_cups_and_peak()
    {
        var course = SampleResults.Rest();
        var figure = Figure.Of(course.Chart());
        var (low, high) = (figure.Named("lower bound").Single(), figure.Named("95 % band").Single());
        var (curve, cups) = (figure.Named("expected score").Single(), figure.Named("mean of the day\u2019s cups").Single());
        foreach (var trace in new[] { low, high, curve })
            Assert.Equal(course.Points.Select(p => (double)p.RestDays), Figure.Numbers(trace, "x"));
        Equal(course.Points.Select(p => p.Low), Figure.Numbers(low, "y"));
        Equal(course.Points.Select(p => p.High), Figure.Numbers(high, "y"));
        Equal(course.Points.Select(p => p.Estimate), Figure.Numbers(curve, "y"));
        Assert.Equal("tonexty", high.GetProperty("fill").GetString());
        Equal(course.Cups.Select(c => (double)c.RestDays), Figure.Numbers(cups, "x"));
        Equal(course.Cups.Select(c => c.MeanScore), Figure.Numbers(cups, "y"));
        Equal(course.Cups.Select(c => (double)c.Cups), Figure.Numbers(cups.GetProperty("marker"), "size"));
        Assert.Equal("area", cups.GetProperty("marker").GetProperty("sizemode").GetString());

        var shapes = figure.Layout.GetProperty("shapes").EnumerateArray().ToArray();
        Assert.Equal((14, 27), (shapes[0].GetProperty("x0").GetInt32(), shapes[0].GetProperty("x1").GetInt32()));
        Assert.Equal((20, 20), (shapes[1].GetProperty("x0").GetInt32(), shapes[1].GetProperty("x1").GetInt32()));
        Assert.Equal(["peak: day 20 (14 to 27)"], figure.Annotations);
        Assert.Contains("430 cups", figure.Chart.Subtitle, StringComparison.Ordinal);
        Assert.Contains("95 % band", figure.Chart.Subtitle, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_no_peak_was_found_none_is_marked()
    {
        RestShape[] shapes = [new RestShape.Rising(), new RestShape.Falling(), new RestShape.Undetermined("its band holds a level line")];
        foreach (var shape in shapes)
        {
            var figure = Figure.Of(SampleResults.Rest(shape).Chart());
            Assert.False(figure.Layout.TryGetProperty("shapes", out _));
            Assert.Empty(figure.Annotations);
            Assert.DoesNotContain("peak day", figure.Chart.Subtitle, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_bags_cups_are_drawn_one_by_one_hollow_where_they_do_not_count_and_side_by_side_where_alike()
    {
        var figure = Figure.Of(SampleResults.Timeline(150, 10).Chart());
        var marks = figure.Traces.Where(trace => !trace.GetProperty("name").GetString()!.StartsWith("frozen", StringComparison.Ordinal) && !trace.GetProperty("name").GetString()!.StartsWith("thawed", StringComparison.Ordinal)).ToArray();
        var cups = marks.SelectMany(trace => Figure.Numbers(trace, "x").Zip(Figure.Numbers(trace, "y"))).ToArray();
        Assert.Equal((150, 150), (cups.Length, cups.Distinct().Count()));
        // Six brewers by shape, the four of fewest cups as one; the failed cup and the one without a score hollow.
        var symbols = marks.Select(trace => trace.GetProperty("marker").GetProperty("symbol").GetString()!).ToArray();
        Assert.Equal(7, symbols.Select(symbol => symbol.Replace("-open", "", StringComparison.Ordinal)).Distinct().Count());
        Assert.Equal(2, marks.Where((_, i) => symbols[i].EndsWith("-open", StringComparison.Ordinal)).Sum(trace => Figure.Numbers(trace, "x").Length));
        Assert.Contains(figure.Traces, trace => trace.GetProperty("name").GetString()!.StartsWith("4 other brewers (", StringComparison.Ordinal));
        Assert.Equal(["opened on day 7"], figure.Annotations);
    }

    [Fact]
    public void Kinds_over_rest_are_drawn_a_panel_each_with_the_best_days_and_the_ends_of_the_days_tasted()
    {
        var peaks = SampleResults.Peaks();
        var figure = Figure.Of(peaks.Chart());
        var (curves, lows, highs, cups) = (
            figure.Named("expected score").ToArray(), figure.Named("lower bound").ToArray(), figure.Named("95 % band").ToArray(), figure.Named("mean of the day\u2019s cups").ToArray());
        for (var i = 0; i < peaks.Groups.Count; i++)
        {
            var group = peaks.Groups[i];
            Assert.Equal(i == 0 ? "y" : $"y{i + 1}", curves[i].GetProperty("yaxis").GetString());
            Assert.Equal(group.Days.Select(d => (double)d.RestDays), Figure.Numbers(curves[i], "x"));
            Equal(group.Days.Select(d => d.Estimate), Figure.Numbers(curves[i], "y"));
            Equal(group.Days.Select(d => d.Low), Figure.Numbers(lows[i], "y"));
            Equal(group.Days.Select(d => d.High), Figure.Numbers(highs[i], "y"));
            Equal(group.Tasted.SkipLast(1).Select(c => c.MeanScore), Figure.Numbers(cups[i], "y"));
        }

        var shapes = figure.Layout.GetProperty("shapes").EnumerateArray().Select(s => (s.GetProperty("yref").GetString(), s.GetProperty("x0").GetInt32(), s.GetProperty("x1").GetInt32())).ToArray();
        Assert.Equal([("y domain", 9, 31), ("y domain", 5, 5), ("y domain", 44, 44), ("y domain", 20, 20), ("y2 domain", 9, 31)], shapes[..5]);
        // Of a course that is not told no day is shaded.
        Assert.Equal(12, shapes.Length);
        Assert.Equal([("y3 domain", 5, 5), ("y3 domain", 44, 44)], shapes.Where(shape => shape.Item1 == "y3 domain"));
        Assert.Equal($"peak: day 20 (14 to 27); {peaks.Groups[0].Cups} cups of 12 bags", figure.Annotations[1]);
        Assert.Contains("Not drawn: 8 cups far outside these days.", figure.Chart.Subtitle, StringComparison.Ordinal);
        Assert.Contains("honey: peak: day 20 (14 to 27)", figure.Chart.AltText, StringComparison.Ordinal);

        // Many kinds: those of most cups; one kind: what is said stands in the panel.
        Assert.Contains("The 6 kinds of most cups of 9.", Figure.Of(SampleResults.Peaks(9).Chart()).Chart.Subtitle, StringComparison.Ordinal);
        Assert.Equal(["peak: day 20 (14 to 27)"], Figure.Of(SampleResults.Peaks(1).Chart()).Annotations);
    }

    [Fact]
    public void Lone_cups_far_outside_the_course_are_counted_and_do_not_squeeze_it()
    {
        var figure = Figure.Of(SampleResults.Rest(withLoneCup: true).Chart());
        Assert.True(Figure.Numbers(figure.Layout.GetProperty("xaxis"), "range")[1] < 60);
        Assert.DoesNotContain(210, Figure.Numbers(figure.Named("mean of the day\u2019s cups").Single(), "x"));
        Assert.Contains("Not drawn: 2 cups far outside these days.", figure.Chart.Subtitle, StringComparison.Ordinal);
        Assert.DoesNotContain("Not drawn", Figure.Of(SampleResults.Rest().Chart()).Chart.Subtitle, StringComparison.Ordinal);
    }

    [Fact]
    public void The_calendar_is_drawn_with_intervals_where_there_are_any_and_counts()
    {
        var course = SampleResults.Calendar(changes: SampleResults.Changes);
        var figure = Figure.Of(course.Chart());
        var sure = course.Periods.Where(p => p.Interval is not null).ToArray();
        Equal(sure.Select(p => p.Mean), Figure.Numbers(figure.Named("mean score").Single(), "y"));
        Equal([course.Periods[3].Mean], Figure.Numbers(figure.Named("under three bags, no interval").Single(), "y"));
        var intervals = figure.Named("95 % interval").Single();
        Equal(sure.SelectMany(p => new[] { p.Interval!.Low, p.Interval.High, double.NaN }), Figure.Numbers(intervals, "y"));
        Assert.Equal(["2025-01-16", "2025-01-16", "", "2025-02-15"], Figure.Texts(intervals, "x")[..4]);
        Assert.Equal("2025-04-16", Figure.Texts(figure.Named("under three bags, no interval").Single(), "x").Single());

        var cups = figure.Named("cups").Single();
        Equal(course.Periods.Select(p => (double)p.Cups), Figure.Numbers(cups, "y"));
        Assert.Equal(course.Periods.Select(p => NumberText.Fixed(p.Cups, 0)), Figure.Texts(cups, "text"));
        Assert.StartsWith("A raw course is not by itself inflation.", figure.Chart.Subtitle, StringComparison.Ordinal);
        Assert.Contains("430 cups", figure.Chart.Subtitle, StringComparison.Ordinal);
    }

    [Fact]
    public void A_bent_course_is_not_told_by_its_slope_alone()
    {
        Assert.EndsWith("430 cups).", SampleResults.Calendar().Chart().Title, StringComparison.Ordinal);
        Assert.Contains("The course is bent: it stands higher in the middle", SampleResults.Calendar(bend: Bend.Arched).Chart().Title, StringComparison.Ordinal);
    }

    [Fact]
    public void A_change_is_drawn_with_the_parts_it_is_the_sum_of_and_shares_of_mixes_below()
    {
        var rise = SampleResults.Rise();
        var figure = Figure.Of(rise.Chart());
        Assert.Equal((0.51, 0), (figure.Marks("raw change").Single().At, figure.Marks("raw change").Single().Row));
        var parts = figure.Marks("part of it");
        Assert.Equal([0.17, -0.03, 0.2, 0.06, 0.15, -0.04], parts.OrderBy(mark => mark.Row).Select(mark => mark.At));
        Assert.Equal(0.51, parts.Sum(mark => mark.At), 12);
        Assert.Equal([0.12, 0.05, -0.03], figure.Marks("a factor\u2019s share of a mix").OrderBy(mark => mark.Row).Select(mark => mark.At));
        Assert.Contains("110 and 110 cups", figure.Chart.Subtitle, StringComparison.Ordinal);
        Assert.Contains(figure.Annotations, text => text.Contains("If coffee does not change in the freezer", StringComparison.Ordinal));
    }

    [Fact]
    public void What_is_added_to_scores_is_nothing_on_the_common_day_and_less_sure_away_from_it()
    {
        var figure = Figure.Of(SampleResults.OneScale().Chart());
        var (line, band) = (figure.Named("added to a score of that day").Single(), figure.Named("95 % band, shared by all cups").Single());
        Assert.Equal("2025-01-02", Figure.Texts(line, "x")[0]);
        Assert.Equal(0.6 * 181 / 365.25, Figure.Numbers(line, "y")[0], 9);
        Assert.Equal(1.4 * 181 / 365.25, Figure.Numbers(band, "y")[0], 9);
        Assert.Equal(-0.2 * 181 / 365.25, Figure.Numbers(figure.Named("lower bound").Single(), "y")[0], 9);
        Assert.Equal("2025-07-02", figure.Layout.GetProperty("shapes")[0].GetProperty("x0").GetString());
    }

    [Fact]
    public void Both_orders_of_favourites_are_drawn()
    {
        var favourites = SampleResults.OneScaleFavourites();
        var figure = Figure.Of(favourites.Chart());
        Equal(favourites.Coffees.Select(c => c.Estimate), Figure.Numbers(figure.Named("on one scale").Single(), "x"));
        Equal(favourites.Coffees.Select(c => c.EstimateAsWritten), Figure.Numbers(figure.Named("by the scores as written").Single(), "x"));
        Assert.Contains("was 2.", figure.Annotations);
    }

    [Fact]
    public void Doses_are_drawn_by_the_share_of_years_in_which_they_tell_the_drift()
    {
        var figure = Figure.Of(SampleResults.Doses().Chart());
        var doses = figure.Named("doses of one coffee over the year").Single();
        Equal([6, 12, 24, 41, 52], Figure.Numbers(doses, "x"));
        Equal([0.18, 0.31, 0.56, 0.8, 0.87], Figure.Numbers(doses, "y"));
        Assert.Equal("\u00b11.15", Figure.Texts(doses, "text")[0]);
        Equal([0.81], Figure.Numbers(figure.Named("a dose of each of so many bags, at one sitting").Single(), "y"));
    }

    [Fact]
    public void A_step_that_is_told_is_shaded_over_its_days_and_one_that_is_not_is_left_out()
    {
        var step = new BagStep(new DateOnly(2025, 6, 8), new DateOnly(2025, 6, 17), 6.4, 6.9, 0.004, []);
        var figure = Figure.Of(SampleResults.Calendar(order: new BagOrder(62, 0.3, 0.01, step, 1999, false), attribute: TastingAttribute.Body).Chart());
        var band = figure.Layout.GetProperty("shapes").EnumerateArray().Single();
        Assert.Equal(("rect", "2025-06-08", "2025-06-18"), (band.GetProperty("type").GetString(), band.GetProperty("x0").GetString(), band.GetProperty("x1").GetString()));
        Assert.Contains("one step in the bag means fits best (6.40 to 6.90, p 0.004)", figure.Chart.Subtitle, StringComparison.Ordinal);
        Assert.Contains("Mean body of each month", figure.Chart.Subtitle, StringComparison.Ordinal);
        var none = SampleResults.Calendar(order: new BagOrder(62, 0.3, 0.01, step with { P = 0.2 }, 1999, false)).Chart();
        Assert.False(Figure.Of(none).Layout.TryGetProperty("shapes", out _));
    }

    [Fact]
    public void Changes_of_equipment_are_marked_on_their_day_and_named()
    {
        var figure = Figure.Of(SampleResults.Calendar(changes: SampleResults.Changes).Chart());
        string[] days = ["2025-02-03", "2025-06-14", "2025-12-20"];
        Assert.Equal(days, figure.Layout.GetProperty("shapes").EnumerateArray().Select(shape => shape.GetProperty("x0").GetString()));
        var marks = figure.Named("change of water or equipment").Single();
        Assert.Equal(days, Figure.Texts(marks, "x"));
        Assert.Equal(["1", "2", "3"], Figure.Texts(marks, "text"));
        Assert.EndsWith(
            "1 water: tap, filtered \u2192 remineralised (2025-02-03); 2 burrs: flat steel (2025-06-14); 3 grinder: no more hand grinder with the long handle (2025-12-20).",
            figure.Chart.Subtitle, StringComparison.Ordinal);
    }

    [Fact]
    public void Changes_within_a_few_days_share_the_place_of_their_numbers()
    {
        EquipmentChange On(int month, int day) => new(new DateOnly(2025, month, day), "water", null, "other");
        var marks = Figure.Of(SampleResults.Calendar(changes: [On(1, 2), On(1, 9), On(1, 30), On(8, 1), On(8, 3)]).Chart()).Named("change of water or equipment").Single();
        Assert.Equal(["1, 2", "", "3", "4, 5", ""], Figure.Texts(marks, "text"));
        Assert.Equal(["top right", "top right", "top right", "top left", "top left"], Figure.Texts(marks, "textposition"));
    }

    [Fact]
    public void Months_are_drawn_as_counted()
    {
        var year = SampleResults.Year();
        var figure = Figure.Of(year.Chart());
        Equal(year.Months.Select(m => (double)m.Verdict), Figure.Numbers(figure.Named("scored cups").Single(), "y"));
        Equal(year.Months.Select(m => (double)m.Other), Figure.Numbers(figure.Named("other cups").Single(), "y"));
        Equal(year.Months.Select(m => (double)m.NewBags), Figure.Numbers(figure.Named("new bags").Single(), "y"));
        Assert.All(new[] { "scored cups", "other cups", "new bags" }, name => Assert.Equal(12, Figure.Texts(figure.Named(name).Single(), "x").Length));
        Assert.Equal("stack", figure.Layout.GetProperty("barmode").GetString());
        Assert.Equal("480 cups of 62 coffees in 70 bags; the busiest month was May 2025 with 52 cups.", figure.Chart.Title);
        Assert.Equal("y2", figure.Named("new bags").Single().GetProperty("yaxis").GetString());
        Assert.Equal(12, figure.Chart.Data!.Rows.Count);
    }

    [Fact]
    public void Notes_are_drawn_where_the_result_has_them()
    {
        var year = SampleResults.Year(notes: 25);
        var figure = Figure.Of(year.NotesChart());
        var shown = year.Notes.Take(20).ToArray();
        EqualRows(shown.Select(n => (n.Low, n.High)), figure.Lines("95 % interval"));
        EqualMarks(shown.Select(n => n.Constancy), figure.Marks("found again"));
        Assert.Equal(shown.SelectMany(n => new[] { n.Note, $"{NumberText.Count(n.Cups, "cup")}, {NumberText.Count(n.Coffees, "coffee")}" }), figure.Annotations);
        Assert.Contains("jasmine", figure.Chart.Title, StringComparison.Ordinal);
        Assert.Contains("The 20 most surely constant of 25 notes", figure.Chart.Subtitle, StringComparison.Ordinal);
    }

    /// <summary>A figure writes nine significant digits.</summary>
    private static bool Near(double found, double drawn) => Math.Abs(found - drawn) <= 1e-8 * Math.Abs(found);

    private static void EqualRows(IEnumerable<(double Low, double High)> expected, IReadOnlyList<(double From, double To, int Row)> drawn)
    {
        var bounds = expected.ToArray();
        Assert.Equal(Enumerable.Range(0, bounds.Length), drawn.Select(line => line.Row));
        Equal(bounds.Select(bound => bound.Low), [.. drawn.Select(line => line.From)]);
        Equal(bounds.Select(bound => bound.High), [.. drawn.Select(line => line.To)]);
    }

    private static void EqualMarks(IEnumerable<double> expected, IReadOnlyList<(double At, int Row, string? Hover)> drawn)
    {
        Assert.Equal(Enumerable.Range(0, drawn.Count), drawn.Select(mark => mark.Row));
        Equal(expected, [.. drawn.Select(mark => mark.At)]);
    }

    private static void Equal(IEnumerable<double> expected, double[] drawn)
    {
        var values = expected.ToArray();
        Assert.Equal(values.Length, drawn.Length);
        for (var i = 0; i < values.Length; i++)
            Assert.True(double.IsNaN(values[i]) ? double.IsNaN(drawn[i]) : Near(values[i], drawn[i]), $"Drawn at {i}: {drawn[i]}, found: {values[i]}.");
    }
}
