using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="TastingPrecision"/>.</summary>
internal static class PrecisionAnalysis
{
    private const int FewestRepeats = 5;
    private const int FewRepeats = 10;
    private const int FewestCupsBeyondBags = 15;
    private const int FewestLaterCups = 3;
    private const int FewestCoffees = 8;
    private const double FarStrayingLevel = 0.05;

    // The interval of a variance begins at nought unless a one-sided test at 2.5 % tells it from nought: half a chi-square.
    private const double NoughtExcluded = 3.8414588206941254;
    private const string BrewTwice = "Now and then brew the same bag twice alike, have the two cups handed over unnamed, score both, and write coffee into blind_to.";
    private const string Estimator =
        "repeats: maximum likelihood with each set's own mean integrated out and scores standing for the step about them; the interval is that of ISO 5725-2 (chi-square) where steps are small. "
        + "Day to day: restricted maximum likelihood, one cup of each set of repeats; intervals of the spread by a chi-square of Satterthwaite's degrees of freedom, less what rounding to steps adds (Sheppard); of the share between coffees by its normal approximation on the logit scale; of slopes by Satterthwaite's degrees of freedom. "
        + "First cup: Pearson's correlation with Fisher's interval";

    public static TastingPrecision Of(TastingLog log, string? taster, double? halfWidth, ulong seed)
    {
        var scale = log.ScaleOf(TastingAttribute.Score);
        var half = halfWidth ?? ScaleText.HalfAPoint(scale);
        if (!(half > 0) || !double.IsFinite(half))
            throw new ArgumentOutOfRangeException(nameof(halfWidth), halfWidth, "A half-width is a positive number of points.");
        var scored = ScoredCups.Of(log);
        var tasters = TastersOf(scored.Cups);
        if (taster is not null && !tasters.Contains(taster))
            throw new ArgumentException($"No scored cup is of the taster '{taster}'; the log has {(tasters.Length == 0 ? "none by name" : string.Join(", ", tasters.Take(20)))}.", nameof(taster));
        Tasting[] cups = [.. scored.Cups.Where(cup => taster is null || cup.Taster == taster).OrderBy(cup => cup.TastedAt)];
        var leftOut = scored.LeftOut.ToList();
        if (cups.Length < scored.Cups.Count)
            leftOut.Add(new LeftOut("of other tasters", scored.Cups.Count - cups.Length));

        TastingPrecision Unsupported(string reason, string whatToLog) => new(
            PrecisionParts.None(reason, whatToLog), [], half, scale, 0, [], new Computation("none", "none", cups.Length, leftOut), Support.Missing(reason, whatToLog));

        if (taster is null && tasters.Length > 1)
        {
            return Unsupported(
                $"{tasters.Length} tasters scored these cups ({string.Join(", ", tasters.Take(3))}{(tasters.Length > 3 ? " and others" : "")}): repeatability is one taster's own, and theirs are not thrown together.",
                "Ask for one of them by name.");
        }

        var repeats = RepeatCups.Of(cups);
        var step = StepOf(cups, scale);
        var blind = Spread(repeats.Sets, true, step);
        var sighted = Spread(repeats.Sets, false, step);
        Tasting[] tasted = [.. log.Tastings.Where(cup => taster is null || cup.Taster == taster)];
        var cupsByDay = tasted.CountBy(cup => cup.TastedOn).ToDictionary();
        var model = ModelOf(repeats.Others, cupsByDay, log.Watch, out var refused);
        if (blind is null && sighted is null && model is null)
            return Unsupported($"{refused.Reason} Nor are there {FewestRepeats} repeats of one brew on one day.", refused.WhatToLog);
        var parts = new PrecisionParts(
            Answer(blind, repeats.Sets, true), Answer(sighted, repeats.Sets, false), Ratio(sighted, blind, repeats.Sets), refused, refused, refused, refused, refused, refused, refused, refused);
        TailTest? tails = null;
        if (model is not null)
        {
            (var oneOffs, tails) = OneOffAnalysis.Among(repeats.Others, scale, log.Watch);
            parts = WithModel(parts, model, half, step);
            parts = parts with { DayToDayWithoutOneOffs = WithoutOneOffs(repeats.Others, oneOffs, cupsByDay, step, parts.DayToDay, log.Watch) };
        }

        return new TastingPrecision(
            parts, repeats.Sets, half, scale, step, Cautions(log, cups, repeats, blind, model, parts.DayToDayWithoutOneOffs, tails, scale, tasted, seed),
            new Computation(model?.Words ?? "none from day to day", Estimator, cups.Length, leftOut, seed), Support.Given);
    }

    /// <summary>The repeatability limit alone, in points of the score: what two single cups differ by anyway.</summary>
    public static PartAnswer LimitOf(TastingLog log, TastingAttribute attribute)
    {
        if (!attribute.Equals(TastingAttribute.Score))
            return new PartAnswer.Refused("It is told of the score alone.", "Ask of the score.");
        var scored = ScoredCups.Of(log).Cups;
        if (TastersOf(scored) is { Length: > 1 } tasters)
            return new PartAnswer.Refused($"{tasters.Length} tasters scored these cups: repeatability is one taster's own.", "Ask for the repeatability of one of them by name.");
        Tasting[] cups = [.. scored.OrderBy(cup => cup.TastedAt)];
        var sets = RepeatCups.Of(cups).Sets;
        return TastingPrecision.LimitOf(Answer(Spread(sets, true, StepOf(cups, log.ScaleOf(attribute))), sets, true));
    }

    private static string[] TastersOf(IReadOnlyList<Tasting> cups) =>
        [.. cups.Select(Factor.Taster.LevelOf).Where(name => name != Factor.NotStated).Distinct().Order(StringComparer.Ordinal)];

    private static DayToDayModel? ModelOf(IReadOnlyList<Tasting> cups, IReadOnlyDictionary<DateOnly, int> cupsByDay, WorkWatch watch, out PartAnswer.Refused refused)
    {
        var beyond = cups.Count - cups.Select(cup => cup.Bag.Id).Distinct().Count();
        refused = new PartAnswer.Refused(
            $"{NumberText.Count(cups.Count, "scored cup")}, {beyond} of them beyond the first of their bags: too few to tell a cup's scatter from day to day.",
            "Brew each bag several times, on different days.");
        if (beyond < FewestCupsBeyondBags)
            return null;
        if (DayToDayModel.Of(cups, cupsByDay, watch) is { } model)
            return model;
        refused = ScoreFit.NoChanceLeft(cups.Count).Match(_ => throw new InvalidOperationException("No chance left is a refusal."), no => new PartAnswer.Refused(no.Reason, no.WhatToLog));
        return null;
    }

    /// <summary>The coarsest step, down to a tenth of the scale's, that all scores stand on; 0 where there is none.</summary>
    private static double StepOf(IReadOnlyList<Tasting> cups, Scale scale)
    {
        foreach (var part in new[] { 1, 2, 4, 5, 10 })
        {
            var finer = new Scale(scale.Attribute, scale.Kind, scale.Min, scale.Max, scale.Step / part);
            if (cups.All(cup => finer.IsOnStep(cup.Score!.Value)))
                return finer.Step;
        }

        return 0;
    }

    private static RoundedSpread? Spread(IReadOnlyList<RepeatSet> sets, bool blind, double step)
    {
        IReadOnlyList<double>[] scores = [.. sets.Where(set => set.IsBlind == blind).Select(set => set.Scores)];
        return scores.Sum(set => set.Count - 1) >= FewestRepeats ? RoundedSpread.Of(scores, step) : null;
    }

    private static PartAnswer Answer(RoundedSpread? spread, IReadOnlyList<RepeatSet> sets, bool blind)
    {
        var own = sets.Where(set => set.IsBlind == blind).ToArray();
        if (spread is null)
        {
            return new PartAnswer.Refused(
                $"{(blind ? "Blind" : "Sighted")} repeats of one brew on one day: {own.Sum(set => set.Scores.Count - 1)}, where {FewestRepeats} are the fewest.",
                blind ? BrewTwice : "Now and then brew the same bag twice alike in one sitting, and score both.");
        }

        var interval = spread.Interval();
        return new PartAnswer.Estimated(spread.Estimate, interval.Low, interval.High, own.Sum(set => set.Scores.Count), Said(spread, blind));
    }

    private static string Said(RoundedSpread spread, bool blind) =>
        $"{NumberText.Count(spread.DegreesOfFreedom, blind ? "blind repeat" : "sighted repeat")} in {NumberText.Count(spread.Sets, "set")} of cups";

    private static PartAnswer Ratio(RoundedSpread? sighted, RoundedSpread? blind, IReadOnlyList<RepeatSet> sets)
    {
        if (sighted is null || blind is null || blind.Estimate == 0)
        {
            return new PartAnswer.Refused(
                blind?.Estimate == 0 ? "No two blind repeats differ by a step of the scale, so nothing can be told as a multiple of them." : $"Held against one another, sighted and blind repeats must be {FewestRepeats} each or more.",
                BrewTwice);
        }

        var interval = sighted.RatioTo(blind);
        return new PartAnswer.Estimated(
            sighted.Estimate / blind.Estimate, interval.Low, interval.High, sets.Sum(set => set.Scores.Count), $"{sighted.DegreesOfFreedom} sighted and {blind.DegreesOfFreedom} blind repeats");
    }

    /// <summary>
    /// The scatter from day to day without the cups that fit nothing else, which are few and weigh much in a variance. They may be the far ends of
    /// chance, without which its spread comes out too small: the interval reaches as high as that of all cups.
    /// </summary>
    private static PartAnswer WithoutOneOffs(IReadOnlyList<Tasting> cups, IReadOnlySet<Tasting> oneOffs, IReadOnlyDictionary<DateOnly, int> cupsByDay, double step, PartAnswer ofAll, WorkWatch watch)
    {
        if (oneOffs.Count == 0)
            return new PartAnswer.Refused("No cup is found that fits nothing else.", "Nothing: the scatter from day to day stands as it is.");
        Tasting[] others = [.. cups.Where(cup => !oneOffs.Contains(cup))];
        if (ModelOf(others, cupsByDay, watch, out var refused) is not { } model)
            return refused;
        var without = DayToDay(model, step, $"{NumberText.Count(others.Length, "cup")}, {oneOffs.Count} left out");
        return ofAll is PartAnswer.Estimated all && all.High > without.High ? without with { High = all.High } : without;
    }

    private static PartAnswer.Estimated DayToDay(DayToDayModel model, double step, string from)
    {
        var interval = model.Day.Interval();
        return new PartAnswer.Estimated(
            BeforeRounding(model.Day.StandardDeviation, step), BeforeRounding(interval.Low, step), BeforeRounding(interval.High, step), model.Cups.Count, from);
    }

    private static PrecisionParts WithModel(PrecisionParts parts, DayToDayModel model, double half, double step)
    {
        var cups = model.Cups.Count;
        var day = model.Day;
        var interval = day.Interval();
        var from = $"{NumberText.Count(cups, "cup")} of {NumberText.Count(model.BagCount, "bag")}";
        return parts with
        {
            DayToDay = DayToDay(model, step, from),
            BetweenSittings = DayToDayModel.SittingsRefused(model.Cups) ?? Sittings(model, from),
            IntraclassCorrelation = BetweenCoffees(model, day, step, from),
            PositionEffect = SlopeOf(model, "position", "The log does not tell the places of cups in their sittings, or each sitting holds one cup.", "Number the cups of a sitting in the column position.", from),
            CupsThatDayEffect = SlopeOf(model, DayToDayModel.CupsThatDay, "Every day holds as many cups as any other.", "Taste more cups on some days than on others.", from),
            FirstCup = FirstCup(model),
            CupsForAVerdict = new PartAnswer.Estimated(CupsWithin(half, day.StandardDeviation), CupsWithin(half, interval.Low), CupsWithin(half, interval.High), cups, from),
        };
    }

    /// <summary>Sheppard's correction: rounding to steps adds a twelfth of the squared step to a variance.</summary>
    private static double BeforeRounding(double deviation, double step) => Math.Sqrt(Math.Max(0, (deviation * deviation) - (step * step / 12)));

    private static PartAnswer Sittings(DayToDayModel model, string from)
    {
        // A variance component is a difference of mean squares: it is nearly normal, and its root is not. Its standard error is that of the fit,
        // but no smaller than that of as many pairs of cups within sittings, which is all that is left of it near nought.
        var cups = model.Cups.Count;
        var variance = model.Sittings?.Variance ?? 0;
        var pairs = model.SittingSizes.Sum(size => size * (size - 1.0)) * (cups - model.BagCount) / cups;
        var ofPairs = (Math.Pow(model.Fit.ResidualStandardDeviation, 2) + variance) * Math.Sqrt(2 / pairs);
        var ofFit = model.Sittings is { } sittings ? variance * Math.Sqrt(2 / sittings.DegreesOfFreedom) : 0;
        var reach = Quantiles.Normal95 * Math.Max(ofPairs, ofFit);
        var low = model.SittingsLikelihoodRatio < NoughtExcluded ? 0 : Math.Sqrt(Math.Max(0, variance - reach));
        return new PartAnswer.Estimated(Math.Sqrt(variance), low, Math.Sqrt(variance + reach), cups, from);
    }

    /// <summary>
    /// The variance between the log's own coffees given all cups: that of the predicted coffees plus what the predictions are uncertain by,
    /// with its own uncertainty as a quadratic form of normal errors.
    /// </summary>
    private static PartAnswer BetweenCoffees(DayToDayModel model, VarianceSum day, double step, string from)
    {
        var coffees = model.Coffees();
        if (coffees.Count < FewestCoffees)
            return new PartAnswer.Refused($"{NumberText.Count(coffees.Count, "coffee")}, where {FewestCoffees} are the fewest to speak of a spread between coffees.", "Log more coffees.");
        var unrounded = BeforeRounding(day.StandardDeviation, step);
        if (unrounded == 0)
            return new PartAnswer.Refused("Cups of one brew do not differ by more than the steps of the scale make them.", "Score on finer steps.");
        double[] values = [.. coffees.Select(model.Fit.Value)];
        var errors = Centred(model.Fit.Covariances(coffees));
        var middle = values.Average();
        double squares = 0, uncertain = 0, cross = 0, product = 0;
        for (var i = 0; i < values.Length; i++)
        {
            squares += (values[i] - middle) * (values[i] - middle);
            uncertain += errors[i, i];
            for (var j = 0; j < values.Length; j++)
            {
                cross += (values[i] - middle) * errors[i, j] * (values[j] - middle);
                product += errors[i, j] * errors[i, j];
            }
        }

        // On the logit scale the share is the difference of two logarithms of variances, each nearly normal.
        var between = squares + uncertain;
        if (squares < 1e-3 * between || between == 0)
            return new PartAnswer.Refused("Coffees do not differ by more than their cups' own scatter makes them.", "Log more cups of each coffee.");
        // Predictions are drawn together to this share of the variance; how far the means they come of are uncertain is not.
        var kept = squares / between;
        var ofBetween = ((4 * cross / Math.Pow(kept, 3)) + (2 * product / (kept * kept))) / (between * between);
        var logit = Math.Log(between / (values.Length - 1)) - (2 * Math.Log(unrounded));
        // A larger scatter from day to day also leaves less of the means' variance to the coffees.
        var ofDay = Math.Pow(1 + (uncertain / between), 2) * 2 / day.DegreesOfFreedom;
        var reach = Quantiles.Normal95 * Math.Sqrt(ofBetween + ofDay);
        return new PartAnswer.Estimated(Share(logit), Share(logit - reach), Share(logit + reach), model.Cups.Count, $"{NumberText.Count(coffees.Count, "coffee")}, {from}");

        static double Share(double logit) => 1 / (1 + Math.Exp(-logit));
    }

    /// <summary>Covariances of deviations from the mean of all.</summary>
    private static double[,] Centred(double[,] covariances)
    {
        var n = covariances.GetLength(0);
        var means = new double[n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
                means[i] += covariances[i, j] / n;
        }

        var all = means.Average();
        var centred = new double[n, n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
                centred[i, j] = covariances[i, j] - means[i] - means[j] + all;
        }

        return centred;
    }

    private static PartAnswer SlopeOf(DayToDayModel model, string column, string reason, string whatToLog, string from)
    {
        if (!model.Fit.FixedEffects.Any(effect => effect.Name == column))
            return new PartAnswer.Refused(reason, whatToLog);
        var slope = model.Fit.Estimate(model.Fit.FixedEffect(column));
        return new PartAnswer.Estimated(slope.Value, slope.Low, slope.High, model.Cups.Count, from);
    }

    private static PartAnswer FirstCup(DayToDayModel model)
    {
        var fixedPart = model.FixedPart();
        var coffees = model.Cups.Select((cup, row) => (Coffee: cup.Bag.Coffee.Id, Score: cup.Score!.Value - fixedPart[row]))
            .GroupBy(cup => cup.Coffee).Select(coffee => coffee.Select(cup => cup.Score).ToArray()).Where(scores => scores.Length > FewestLaterCups)
            .Select(scores => (First: scores[0], Later: scores[1..].Average(), Cups: scores.Length)).ToArray();
        if (coffees.Length < FewestCoffees)
        {
            return new PartAnswer.Refused(
                $"{NumberText.Count(coffees.Length, "coffee has", "coffees have")} {FewestLaterCups} scored cups or more after the first, where {FewestCoffees} are the fewest.",
                $"Score at least {FewestLaterCups + 1} cups of each coffee.");
        }

        var (first, later) = (coffees.Average(c => c.First), coffees.Average(c => c.Later));
        var correlation = coffees.Sum(c => (c.First - first) * (c.Later - later))
            / Math.Sqrt(coffees.Sum(c => (c.First - first) * (c.First - first)) * coffees.Sum(c => (c.Later - later) * (c.Later - later)));
        if (!double.IsFinite(correlation) || Math.Abs(correlation) > 1 - 1e-12)
            return new PartAnswer.Refused("First cups, or the means of later ones, do not differ between coffees, or agree to the last digit.", "Log more coffees, each cup scored for itself.");
        var reach = Quantiles.Normal95 / Math.Sqrt(coffees.Length - 3);
        return new PartAnswer.Estimated(
            correlation, Math.Tanh(Math.Atanh(correlation) - reach), Math.Tanh(Math.Atanh(correlation) + reach), coffees.Sum(c => c.Cups), NumberText.Count(coffees.Length, "coffee"));
    }

    private static double CupsWithin(double half, double deviation) => Math.Max(1, Math.Ceiling(Math.Pow(Quantiles.Normal95 * deviation / half, 2)));

    private static List<Caution> Cautions(TastingLog log, IReadOnlyList<Tasting> cups, RepeatCups repeats, RoundedSpread? blind, DayToDayModel? model, PartAnswer withoutOneOffs, TailTest? tails, Scale scale, IReadOnlyList<Tasting> tasted, ulong seed)
    {
        var cautions = new List<Caution>();
        if (blind is { DegreesOfFreedom: < FewRepeats })
            cautions.Add(new Caution("few-repeats", $"{NumberText.Count(blind.DegreesOfFreedom, "blind repeat")} only: the standard deviation may be half or twice what it seems."));
        if (repeats.WithoutGrind > 0)
        {
            cautions.Add(new Caution("grind-not-stated",
                $"{NumberText.Count(repeats.WithoutGrind, "set of repeats states", "sets of repeats state")} no grind: a change of it would count as the taster's."));
        }

        if (withoutOneOffs is PartAnswer.Estimated without)
        {
            cautions.Add(new Caution("one-offs-counted",
                $"Some cups fit nothing else ({without.From}; the one-off check names them): the scatter from day to day, the share between coffees and the cups for a verdict count them, and repeats may hold others. Without them a cup scatters by {NumberText.Fixed(without.Estimate)} points (95 % interval {NumberText.Interval(without.Low, without.High)}, its upper end that of all cups, since they may be chance)."));
        }
        else if (tails is { P: < FarStrayingLevel })
        {
            cautions.Add(new Caution("one-offs-counted",
                $"More cups lie far from what was to be expected of them than chance makes (kurtosis {NumberText.Fixed(tails.Kurtosis)}, where chance makes about 3), though none so far that it can be named: the scatter from day to day, the share between coffees, the cups for a verdict and maybe the repeats count them, and an ordinary cup scatters less."));
        }

        if (model is not null && ScoreCautions.SpanMonths(cups))
        {
            cautions.Add(new Caution("scale-drift",
                "Scores are taken as written: if the scale moved over the year, coffees tasted late differ by it from those tasted early, and the share between coffees counts that."));
        }

        string[] own = model is null ? [] : [.. RepeatCups.OwnColumns(cups)];
        if (own.Length > 0)
        {
            cautions.Add(new Caution("own-columns",
                $"The log has {NumberText.Count(own.Length, "column")} of its own ({string.Join(", ", own.Take(3))}{(own.Length > 3 ? " and others" : "")}): repeats are alike in {(own.Length == 1 ? "it" : "them")}, but the scatter from day to day is not net of {(own.Length == 1 ? "it" : "them")}."));
        }

        if (model is not null && (ScoreColumns.Varying(Factor.Brewer, model.Cups) ?? ScoreColumns.Varying(Factor.RecipeFrom, model.Cups)) is not null)
        {
            cautions.Add(new Caution("coffees-take-to-brews",
                "The scatter from day to day is net of what brewer, recipe and rest do on average: what they do to one coffee and not to another counts as scatter as far as the log does not tell it apart."));
        }

        cautions.AddRange(new[] { ScoreCautions.Ceiling(cups, scale), ScoreCautions.EquipmentChanged(log, cups) }.OfType<Caution>());
        if (model is null)
            return cautions;
        var residuals = model.Fit.Residuals();
        cautions.AddRange(new[]
        {
            ScoreCautions.HangTogether(residuals, model.Cups, seed), CarryOver.In(model.Fit, model.Cups, TastingAttribute.Score, model.SittingColumn, seed),
            BrewedAgain.In(
                residuals, model.Cups, tasted,
                "What the number of cups that day does to a score can\u2019t be told from that, and where cups were called failed for it, the others scatter less than all did.", seed),
        }.OfType<Caution>());
        return cautions;
    }
}
