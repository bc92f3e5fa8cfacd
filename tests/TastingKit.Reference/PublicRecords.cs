using System.Globalization;
using System.Text.Json;

namespace TastingKit.Reference;

/// <summary>
/// Public records whose answers independent software gave (a folder with <c>facts.json</c> and a log a set), asked of the kit's own
/// analyses, with the records' columns named as factors and covariates.
/// </summary>
internal static class PublicRecords
{
    /// <summary>One figure of both.</summary>
    /// <param name="What">Set, quantity and measure.</param>
    /// <param name="Ours">The kit's.</param>
    /// <param name="Theirs">The stored one, as written.</param>
    public sealed record Figure(string What, double Ours, string Theirs)
    {
        /// <summary>Whether the kit's figure, rounded to the digits given, is the stored one; the last digit may be rounded either way at a tie.</summary>
        public bool Agrees
        {
            get
            {
                var decimals = Theirs.Contains('.', StringComparison.Ordinal) ? Theirs.Length - Theirs.IndexOf('.', StringComparison.Ordinal) - 1 : 0;
                return Math.Abs(Ours - double.Parse(Theirs, CultureInfo.InvariantCulture)) <= (0.5 * Math.Pow(10, -decimals)) + 1e-9;
            }
        }

        /// <summary>Both figures on one line.</summary>
        public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{(Agrees ? "agrees " : "DIFFERS")}  {What}: {Ours:F5}, stored {Theirs}");
    }

    /// <summary>All figures of the sets in a folder.</summary>
    /// <param name="folder">The folder that holds <c>facts.json</c> and the logs.</param>
    public static IReadOnlyList<Figure> Compare(string folder)
    {
        using var facts = JsonDocument.Parse(File.ReadAllText(Path.Combine(folder, "facts.json")));
        return
        [
            .. Brews(TastingLog.Read(Path.Combine(folder, "brew-factorial-2019")), facts.RootElement.GetProperty("brew-factorial-2019")),
            .. WeekTold(TastingLog.Read(Path.Combine(folder, "brew-factorial-2019")), facts.RootElement.GetProperty("brew-factorial-2019").GetProperty("effects").GetProperty("Week")),
            .. Gradings(TastingLog.Read(Path.Combine(folder, "cqi-2018")), Partners(Path.Combine(folder, "cqi-2018")), facts.RootElement.GetProperty("cqi-2018").GetProperty("trend_points_a_year")),
            .. NoDriftNamed("brews", TastingLog.Read(Path.Combine(folder, "brew-factorial-2019"))),
            .. NoDriftNamed("gradings", TastingLog.Read(Path.Combine(folder, "cqi-2018"))),
            .. Storage(TastingLog.Read(Path.Combine(folder, "fries-storage-2004")), facts.RootElement.GetProperty("fries-storage-2004")),
        ];
    }

    private static IEnumerable<Figure> Brews(TastingLog log, JsonElement facts)
    {
        var (strength, extraction, temperature) = (Covariate.Strength.Per(0.25), Covariate.Column("extraction_pct", 4, "%"), Covariate.WaterTemperature.Per(3));
        var (position, week) = (Covariate.Position, Covariate.Column("week"));
        var estimates = log.Estimate(TastingAttribute.Score).Bent(strength).Bent(extraction).Along(temperature).Together(strength, extraction)
            .Along(position).Along(week).VaryingBy(Factor.Taster).Fit();
        foreach (var (name, what) in new[]
        {
            ("tds_d", "strength, 0.25 % dissolved more"), ("pe_d", "extraction_pct, 4 % more"), ("temp_d", "water temperature, 3 °C more"),
            ("I(tds_d^2)", "strength, bend a squared step"), ("I(pe_d^2)", "extraction_pct, bend a squared step"), ("Position", "position, 1 cup later more"), ("Week", "week, 1 more"),
            ("tds_d:pe_d", "strength with extraction_pct, a step of each"),
        })
        {
            foreach (var figure in Effect($"brews, {what}", estimates.EffectOf(what), facts.GetProperty("effects").GetProperty(name)))
                yield return figure;
        }

        yield return Spread("brews, tasters", estimates, "taster", facts.GetProperty("sd_components").GetProperty("Judge"));
        yield return Spread("brews, cups", estimates, "cup", facts.GetProperty("sd_components").GetProperty("Residual"));

        // The stored spreads of the slopes are of the brews' straight lines alone, without bends, position and week.
        var differing = log.Estimate(TastingAttribute.Score).Along(strength).Along(extraction).Along(temperature).Together(strength, extraction)
            .VaryingBy(Factor.Taster).SlopeVaryingBy(Factor.Taster, strength).Fit();
        var stored = facts.GetProperty("judges_differ_in_the_tds_slope");
        yield return Spread("brews with slopes, tasters", differing, "taster", stored.GetProperty("Judge"));
        yield return Spread("brews with slopes, slopes", differing, "slope of strength by taster", stored.GetProperty("Judge:tds_d"));
        yield return Spread("brews with slopes, cups", differing, "cup", stored.GetProperty("Residual"));

        var brews = Factor.Combined(Factor.ValuesOf(temperature), Factor.ValuesOf(strength), Factor.ValuesOf(extraction));
        var means = log.Estimate(TastingAttribute.Score).By(brews).VaryingBy(Factor.Taster).Fit().MeansOf(brews);
        foreach (var cell in facts.GetProperty("best_cells").EnumerateArray().Concat(facts.GetProperty("worst_cells").EnumerateArray()))
        {
            var name = cell.GetProperty("level").GetString()!;
            var ours = means.Single(mean => mean.Level == name.Replace("-", ", ", StringComparison.Ordinal).Replace("1.0", "1", StringComparison.Ordinal));
            yield return new Figure($"brew {name}", ours.Estimate, cell.GetProperty("estimate").GetRawText());
            yield return new Figure($"brew {name}, standard error", ours.StandardError, cell.GetProperty("se").GetRawText());
        }

        // The stored weeks are held against one another at the middle of the brews, by their straight lines and what two of them do together.
        var weeks = Factor.Column("week");
        var byWeek = log.Estimate(TastingAttribute.Score).Along(strength).Along(extraction).Along(temperature).Together(strength, extraction)
            .By(weeks).VaryingBy(Factor.Taster).Fit().MeansOf(weeks);
        foreach (var mean in facts.GetProperty("week_emmeans").EnumerateArray())
        {
            var ours = byWeek.Single(one => one.Level == mean.GetProperty("week").GetRawText());
            yield return new Figure($"brews, week {ours.Level}", ours.Estimate, mean.GetProperty("estimate").GetRawText());
            yield return new Figure($"brews, week {ours.Level}, standard error", ours.StandardError, mean.GetProperty("se").GetRawText());
        }
    }

    /// <summary>
    /// What a week did, as the kit tells it where it is asked about drift: to the two decimals that its sentences have, since it holds brews
    /// against one another at equal strength, extraction, temperature and position too, but without their bends.
    /// </summary>
    private static Figure[] WeekTold(TastingLog log, JsonElement stored)
    {
        var month = log.ScaleDrift(adjustedFor: [Covariate.Column("extraction_pct", 4, "%")]).Sums.Single(sum => sum.Sum == DriftSum.RestAndDrift).Slope;
        const double WeeksAMonth = 365.25 / 12 / 7;
        return
        [
            new("brews, what a week did where drift is asked about", month.Estimate / WeeksAMonth, Rounded("per_unit")),
            new("brews, what a week did where drift is asked about, standard error", month.StandardError / WeeksAMonth, Rounded("se")),
        ];

        string Rounded(string name) => stored.GetProperty(name).GetDouble().ToString("F2", CultureInfo.InvariantCulture);
    }

    /// <summary>Who organised each grading, which the log does not hold: by the place of the row in the file as found.</summary>
    private static Dictionary<string, string> Partners(string folder)
    {
        var table = DataTable.Read(Path.Combine(folder, "arabica_ratings_raw.csv.gz"));
        int[] rows = [.. Enumerable.Range(0, table.RowCount)];
        return table.Column("In-Country Partner", rows).Select((partner, row) => (partner, row))
            .ToDictionary(each => string.Create(CultureInfo.InvariantCulture, $"A{each.row:D4}"), each => each.partner, StringComparer.Ordinal);
    }

    private static IEnumerable<Figure> Gradings(TastingLog log, Dictionary<string, string> partners, JsonElement facts)
    {
        const string AYear = "calendar, 1 year more";
        // The stored fit is of arabica with a country, without the row of noughts and the form's try-out, which the kit leaves out by itself. It
        // takes a blank process as one of its own, and each lot without a producer as the only one of its producer.
        var coffees = log.Bags.Where(bag => bag.Id.StartsWith('A') && bag.Coffee.Countries.Count > 0).ToDictionary(
            bag => bag.Id, bag => bag with { OtherColumns = new Dictionary<string, string> { ["grading partner"] = partners[bag.Id] }, Coffee = bag.Coffee with { Process = bag.Coffee.Process ?? "blank", Producer = bag.Coffee.Producer ?? bag.Id } }, StringComparer.Ordinal);
        var graded = new TastingLog(new LogContents
        {
            Name = log.Name,
            Bags = [.. coffees.Values],
            Tastings = [.. log.Tastings.Where(cup => coffees.ContainsKey(cup.Bag.Id)).Select(cup => cup with { Bag = coffees[cup.Bag.Id] })],
            Scales = [log.ScaleOf(TastingAttribute.Score)],
        });
        var arabica = graded.Estimate(TastingAttribute.Score).Along(Covariate.Calendar);
        var within = arabica.By(Factor.Process).VaryingBy(Factor.Country).VaryingBy(Factor.Producer).Fit();
        var alsoByPartner = arabica.By(Factor.Process).VaryingBy(Factor.Country).VaryingBy(Factor.Producer).VaryingBy(Factor.BagColumn("grading partner")).Fit();
        var course = graded.CalendarCourse();
        return
        [
            .. Effect("gradings, raw trend", arabica.Fit().EffectOf(AYear), facts.GetProperty("naive_lm")),
            .. Effect("gradings, trend within country and producer", within.EffectOf(AYear), facts.GetProperty("within_country_and_producer")),
            .. Effect("gradings, trend within country, producer and grading partner", alsoByPartner.EffectOf(AYear), facts.GetProperty("and_grading_partner")),
            new("gradings, points a year of the raw course", course.Trend!.PointsAYear, facts.GetProperty("naive_lm").GetProperty("per_unit").GetRawText()),
            new("gradings, raw rises or falls called steady", course.Trend is { Low: <= 0, High: >= 0 } ? 0 : 1, "0"),
            // A smooth of more than two degrees of freedom is no straight line.
            new("gradings, raw courses called bent", course.Trend.Bend == Bend.None ? 0 : 1, facts.GetProperty("gam_edf_of_year").GetDouble() > 2 ? "1" : "0"),
        ];
    }

    /// <summary>Neither set can tell drift: whatever changed over its weeks or years, the kit must not call it that.</summary>
    private static Figure[] NoDriftNamed(string set, TastingLog log)
    {
        var drift = log.ScaleDrift();
        var named = drift.Case is DriftCase.Anchored ? 1 : drift.Summary.Count(sentence => sentence.Contains("scale drifted", StringComparison.Ordinal));
        return [new Figure($"{set}, drifts of the scale named", named, "0")];
    }

    private static IEnumerable<Figure> Storage(TastingLog log, JsonElement facts)
    {
        var (week, weeks) = (Covariate.Column("week"), Factor.Column("week"));
        foreach (var flavour in facts.GetProperty("slopes_a_week").EnumerateObject())
        {
            var attribute = flavour.Name == "potato" ? TastingAttribute.Score : TastingAttribute.Named(flavour.Name);
            var estimates = log.Estimate(attribute).Along(week).By(Factor.Coffee).VaryingBy(Factor.Taster).VaryingBy(Factor.Taster, weeks).Fit();
            foreach (var figure in Effect($"storage, {flavour.Name} a week", estimates.EffectOf("week, 1 more"), flavour.Value))
                yield return figure;

            // Nothing that lies in store gets better and then worse: a peak named here is a false one.
            yield return new Figure($"storage, {flavour.Name}, peaks named", log.RestPeaks(attribute: attribute).Groups.Count(group => group.Outcome is RestOutcome.Peak), "0");
            if (flavour.Name != "potato")
                continue;
            var spreads = facts.GetProperty("sd_components_potato");
            yield return Spread("storage, tasters", estimates, "taster", spreads.GetProperty("subject"));
            yield return Spread("storage, tasters by week", estimates, "taster by week", spreads.GetProperty("subject:week"));
            yield return Spread("storage, cups", estimates, "cup", spreads.GetProperty("Residual"));
            foreach (var mean in facts.GetProperty("oil_emmeans_potato").EnumerateArray())
            {
                var ours = estimates.MeansOf(Factor.Coffee).Single(m => m.Level == $"oil-{mean.GetProperty("level").GetString()}");
                yield return new Figure($"storage, {ours.Level}", ours.Estimate, mean.GetProperty("estimate").GetRawText());
                yield return new Figure($"storage, {ours.Level}, standard error", ours.StandardError, mean.GetProperty("se").GetRawText());
            }

            // The stored bend is of the tasters alone, without weeks of their own.
            var bent = log.Estimate(attribute).Bent(week).VaryingBy(Factor.Taster).Fit();
            foreach (var figure in Effect("storage, bend of potato", bent.EffectOf("week, bend a squared step"), facts.GetProperty("potato_quadratic")))
                yield return figure;
        }
    }

    private static IEnumerable<Figure> Effect(string what, CupEffect ours, JsonElement stored) =>
    [
        new(what, ours.Estimate, stored.GetProperty("per_unit").GetRawText()),
        new($"{what}, standard error", ours.StandardError, stored.GetProperty("se").GetRawText()),
        new($"{what}, t", ours.Estimate / ours.StandardError, stored.GetProperty("t").GetRawText()),
    ];

    private static Figure Spread(string what, CupEstimates estimates, string group, JsonElement stored) =>
        new($"{what}, standard deviation", estimates.Spreads.Single(spread => spread.What == group).StandardDeviation, stored.GetRawText());
}
