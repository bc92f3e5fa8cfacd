namespace TastingKit.Charts.Tests;

/// <summary>Results with invented figures, each in the shapes that a log may give them: few, many, long, hostile.</summary>
internal static class SampleResults
{
    public const string Hostile = "<b>Bold</b> <a href=\"javascript:alert(1)\">x</a> $\\frac{1}{2}$ %{x} </script> & \u202etxet";

    private static readonly string[] Names =
    [
        "Kersa Dabo", "Los Alisos", "Nyamagoro", "Finca Piedra Clara Experimental Lot Nine Slow Dried", "Wadi Samar", "Tanah Tua",
        "Cerro Manso", "Mugara Hill", "Quebrada Fria", "Yungas Alta",
    ];

    private static readonly string[] Roasters = ["Hollow Lane", "Quiet Kiln", "Second Bell", "Northmoor Roasting Company"];

    public static StandardBrew Brew { get; } = new("cone dripper", "house", 18);

    public static Scale Scale { get; } = Scale.Default(TastingAttribute.Score);

    public static Computation Computation(int cups) => new("a model", "an estimator", cups, [], 7);

    public static Coffee Coffee(int i, string? name = null) =>
        new() { Id = $"c{i}", Name = name ?? $"{Names[i % Names.Length]}{(i < Names.Length ? "" : $" {i}")}", Roaster = Roasters[i % Roasters.Length] };

    public static Favourites Favourites(int count = 70, double halfWidth = 0.5, Func<int, string?>? name = null, Support? support = null)
    {
        var coffees = new List<Favourite>();
        var top = count < 30 ? Math.Max(1, count / 3) : 10;
        for (var i = 0; i < count; i++)
        {
            var estimate = 8.4 - (2.2 * i / Math.Max(1, count - 1));
            var half = halfWidth * (1 + (0.4 * Math.Sin(i)));
            var probability = Math.Clamp(0.5 - (0.5 * Math.Tanh((i - top + 0.5) / 3.0)), 0.001, 0.999);
            coffees.Add(new Favourite(
                Coffee(i, name?.Invoke(i)), i + 1, estimate, estimate - half, estimate + (1.1 * half), Math.Max(1, i - 4), i + 9,
                probability, i == 0 ? 0.46 : 0.02, estimate + (0.5 * Math.Cos(3 * i)), 2 + (i * 7 % 11), 1 + (i % 3)));
        }

        return new Favourites(coffees, top, Brew, Scale, [], Computation(480), support ?? Support.Given, _ => Groups(Factor.Country));
    }

    public static FavouriteGroups Groups(Factor factor, int count = 10, Func<int, string>? name = null)
    {
        string[] countries = ["Ethiopia", "Rwanda", "Burundi", "Guatemala", "Costa Rica", "Honduras", "Peru", "Bolivia", "Indonesia", "Yemen"];
        var groups = Enumerable.Range(0, count).Select(i => new FavouriteGroup(
            name?.Invoke(i) ?? (i < countries.Length ? countries[i] : $"Country {i}"), i + 1, 7.9 - (1.4 * i / count), 7.4 - (1.4 * i / count) - (0.2 * Math.Abs(Math.Sin(i))), 8.45 - (1.4 * i / count),
            i == 0 ? 0.63 : 0.05, 7.9 - (1.4 * i / count) + (0.3 * Math.Cos(2 * i)), 90 - (2 * i), 12 - (i % 11))).ToArray();
        return new FavouriteGroups(factor, groups, Brew, Scale, [], Computation(480), Support.Given);
    }

    public static MethodEffects Methods(int levels = 4, double halfWidth = 0.3, Func<int, string>? name = null)
    {
        string[] brewers = ["cone dripper", "flat-bed dripper", "thick-paper carafe", "steep-and-release"];
        string Level(int i) => name?.Invoke(i) ?? (i < brewers.Length ? brewers[i] : $"brewer {i}");
        var contrasts = new List<MethodContrast>();
        for (var i = 0; i < levels; i++)
        {
            for (var j = i + 1; j < levels; j++)
            {
                var estimate = 0.9 * Math.Cos(i + (2 * j));
                var (low, high) = (estimate - halfWidth, estimate + (1.05 * halfWidth));
                var direction = low > 0 ? Direction.Higher : high < 0 ? Direction.Lower : Direction.Undecided;
                var size = low > 0.5 || high < -0.5 ? Size.Matters : low > -0.5 && high < 0.5 ? Size.TooSmallToMatter : Size.Undecided;
                contrasts.Add(new MethodContrast("brewer", Level(i), Level(j), new MethodAnswer(estimate, low, high, low, high, direction, size), 120 - (9 * i), 80 - (5 * j), 21 - i - j, FurtherCups.None));
            }
        }

        return new MethodEffects(Factor.Brewer, TastingAttribute.Score, [.. contrasts.OrderByDescending(c => Math.Abs(c.Answer.Estimate))], 0.95, 0.5, Scale, [], Computation(480), Support.Given);
    }

    public static MethodSlopes Slopes(int count = 3, Func<int, string>? name = null)
    {
        Covariate[] usual = [Covariate.WaterTemperature, Covariate.Ratio, Covariate.Grind("flat burrs")];
        var slopes = Enumerable.Range(0, count).Select(i =>
        {
            var covariate = name is null && i < usual.Length ? usual[i] : Covariate.Column(name?.Invoke(i) ?? $"column {i}", 0.5, name?.Invoke(i) ?? "g");
            var estimate = 0.7 * Math.Cos(2 * i);
            var (low, high) = (estimate - 0.3, estimate + 0.35);
            var answer = new MethodAnswer(estimate, low, high, low + 0.05, high - 0.05, low > 0 ? Direction.Higher : high < 0 ? Direction.Lower : Direction.Undecided, low > 0.5 ? Size.Matters : Size.Undecided);
            return new MethodSlope(covariate, answer, i == 1 ? new SlopeShape.Curved(0.01, -0.2, 0.4) : new SlopeShape.Straight(0.4), 88, 96.5, 430 - i, 41, FurtherCups.None);
        }).ToArray();
        return new MethodSlopes(TastingAttribute.Score, slopes, [], 0.5, Scale, [], Computation(480), Support.Given);
    }

    public static MethodProfile Profile(int attributes = 3, Func<int, string>? name = null)
    {
        var list = Enumerable.Range(0, attributes).Select(i =>
        {
            var attribute = TastingAttribute.Named(name?.Invoke(i) ?? new[] { "acidity", "body", "clarity" }[i % 3] + (i < 3 ? "" : $" {i}"));
            var effects = new MethodEffects(Factor.Brewer, attribute, Methods(3, 1, name).Contrasts, 0.9786, 0.9375, TastingKit.Scale.Default(attribute), [], Computation(480), Support.Given);
            return new AttributeEffects(attribute, 0.001 * i, 0.002 * i, i == 2 ? null : effects);
        }).ToArray();
        return new MethodProfile(Factor.Brewer, list, [], 0.9786, [], Computation(480), Support.Given);
    }

    public static MethodDeviations Deviations(bool ofCoffee = false, int count = 4, Func<int, string>? name = null)
    {
        string[] processes = ["washed", "natural", "honey", "wet-hulled"];
        var pairs = Methods(ofCoffee ? 2 : 3, 0.3, name).Contrasts;
        var list = pairs.SelectMany(c => Enumerable.Range(0, count).Select(i =>
        {
            var shift = 0.2 * Math.Sin(i);
            var (low, high) = (c.Answer.Low + shift, c.Answer.High + shift);
            var answer = new MethodAnswer(c.Answer.Estimate + shift, low, high, low, high, low > 0 ? Direction.Higher : high < 0 ? Direction.Lower : Direction.Undecided, low > 0.5 ? Size.Matters : Size.Undecided);
            return new MethodDeviation(name?.Invoke(i) ?? (ofCoffee ? $"Coffee {i} (Hollow Lane)" : processes[i % 4]), c.First, c.Second, answer, 20 - (i % 9), 12, ofCoffee ? 1 : 7);
        })).OrderByDescending(d => d.Answer.Estimate).ToArray();
        return new MethodDeviations(Factor.Brewer, TastingAttribute.Score, ofCoffee ? Factor.Coffee : Factor.Process, list, new DeviationSpread(0.2, 0.05, 0.4), 0.5, Scale, [], Computation(480), Support.Given);
    }

    public static RestCourse Rest(RestShape? shape = null, int days = 40, bool withLoneCup = false)
    {
        var points = Enumerable.Range(5, days).Select(day =>
        {
            var estimate = 7.2 - (0.002 * (day - 20) * (day - 20));
            var half = 0.15 + (0.0006 * (day - 20) * (day - 20));
            return new RestPoint(day, estimate, estimate - half, estimate + half);
        }).ToArray();
        var cups = Enumerable.Range(3, days + 4).Where(day => day % 7 != 4)
            .Select(day => new RestCups(day, 7 - (0.002 * (day - 20) * (day - 20)) + (0.8 * Math.Sin(5 * day)), 1 + (day * 5 % 17))).ToList();
        if (withLoneCup)
            cups.Add(new RestCups(210, 5.5, 2));
        return new RestCourse(points, cups, shape ?? new RestShape.Peak(20, 14, 27), Brew, Scale, [], Computation(430), Support.Given);
    }

    public static CalendarCourse Calendar(
        int periods = 12, string periodName = "month", IReadOnlyList<EquipmentChange>? changes = null, Bend bend = Bend.None, BagOrder? order = null, TastingAttribute? attribute = null)
    {
        var list = Enumerable.Range(0, periods).Select(i =>
        {
            var from = periodName switch
            {
                "month" => new DateOnly(2025, 1, 1).AddMonths(i),
                "quarter" => new DateOnly(2024, 1, 1).AddMonths(3 * i),
                _ => new DateOnly(2010 + i, 1, 1),
            };
            var mean = 6.8 + (0.06 * i) + (0.2 * Math.Sin(i));
            var label = periodName switch
            {
                "month" => $"{from:yyyy-MM}",
                "quarter" => $"{from:yyyy} Q{((from.Month - 1) / 3) + 1}",
                _ => $"{from:yyyy}",
            };
            return new CalendarPeriod(from, label, mean, i == 3 ? null : new MeanInterval(mean - 0.3 - (0.05 * i), mean + 0.35), i == 3 ? 4 : 28 + (i * 7 % 25), i == 3 ? 1 : 9 + (i % 5));
        }).ToArray();
        return new CalendarCourse(attribute ?? TastingAttribute.Score, periodName, list, new CalendarTrend(0.51, 0.12, 0.9, bend), order, changes ?? [], Scale, [], Computation(430), Support.Given);
    }

    public static IReadOnlyList<EquipmentChange> Changes { get; } =
    [
        new EquipmentChange(new DateOnly(2025, 2, 3), "water", "tap, filtered", "remineralised"),
        new EquipmentChange(new DateOnly(2025, 6, 14), "burrs", null, "flat steel"),
        new EquipmentChange(new DateOnly(2025, 12, 20), "grinder", "hand grinder with the long handle", null),
    ];

    public static LoggedYear Year(int months = 12, int notes = 14, Func<int, string>? note = null)
    {
        string[] words = ["jasmine", "apricot", "black tea", "blackcurrant", "cocoa", "orange", "plum", "cedar"];
        var counts = Enumerable.Range(0, months).Select(i => new MonthCounts(
            new DateOnly(2025, 1, 1).AddMonths(i), i == 6 ? 0 : 24 + (i * 11 % 23), i == 6 ? 0 : 3 + (i % 5), i == 6 ? 0 : 4 + (i % 6))).ToArray();
        var constancies = Enumerable.Range(0, notes).Select(i => new NoteConstancy(
            note?.Invoke(i) ?? (i < words.Length ? words[i] : $"note {i}"), 0.72 - (0.6 * i / Math.Max(1, notes)), Math.Max(0, 0.55 - (0.6 * i / Math.Max(1, notes))), Math.Min(1, 0.86 - (0.5 * i / Math.Max(1, notes))),
            40 - (i % 20), 9 - (i % 6))).ToArray();
        return new LoggedYear(70, 62, 480, 9, 10, counts, constancies, [], Computation(480), Support.Given);
    }

    public static TastingPrecision Precision(bool withRepeats = true, Support? support = null)
    {
        var no = new PartAnswer.Refused("Blind repeats of one brew on one day: 0, where 5 are the fewest.", "Brew twice.");
        var parts = new PrecisionParts(
            withRepeats ? new PartAnswer.Estimated(0.41, 0.31, 0.6, 40, "20 blind repeats in 20 sets of cups") : no,
            withRepeats ? new PartAnswer.Estimated(0.3, 0.2, 0.55, 16, "8 sighted repeats in 8 sets of cups") : no,
            withRepeats ? new PartAnswer.Estimated(0.73, 0.4, 1.4, 56, "8 sighted and 20 blind repeats") : no,
            new PartAnswer.Estimated(0.47, 0.43, 0.51, 423, "423 cups of 69 bags"), new PartAnswer.Estimated(0.2, 0, 0.28, 423, "423 cups of 69 bags"),
            new PartAnswer.Estimated(0.62, 0.55, 0.69, 423, "65 coffees, 423 cups of 69 bags"), new PartAnswer.Estimated(-0.04, -0.07, -0.01, 423, "423 cups of 69 bags"),
            new PartAnswer.Estimated(0.01, -0.02, 0.04, 423, "423 cups of 69 bags"), new PartAnswer.Estimated(0.76, 0.6, 0.85, 410, "62 coffees"),
            new PartAnswer.Estimated(4, 3, 5, 423, "423 cups of 69 bags"), new PartAnswer.Refused("No cup is found that fits nothing else.", "Nothing."));
        return new TastingPrecision(parts, [], 0.5, Scale, 0.5, [], Computation(446), support ?? Support.Given);
    }

    public static OneOffs OneOffs(int count = 200, int flagged = 2, string? name = null)
    {
        var cups = Enumerable.Range(0, count).Select(i =>
        {
            var z = i < flagged ? -4.5 - i : 1.9 * Math.Sin(7 * i);
            var cup = new Tasting
            {
                Id = $"t{i}",
                Bag = new Bag { Id = $"b{i % 20}", Coffee = Coffee(i % 20, name) },
                TastedAt = new DateTime(2025, 1, 1).AddDays(i * 364 / count),
                Brewer = "cone dripper",
                Score = Math.Round((6.6 + (0.5 * z)) * 2) / 2,
            };
            return new OneOffCup(cup, 6.6, 5.6, 7.6, z, i < flagged ? 1e-5 : 0.5, i < flagged ? 0.002 : 0.9, i < flagged);
        }).ToArray();
        return new OneOffs(cups, 0.05, Scale, [], Computation(count), Support.Given);
    }

    /// <summary>A bag's timeline; by default twelve cups on three brewers, one failed, one without a score, two doses frozen.</summary>
    public static BagTimeline Timeline(int count = 12, int brewers = 3, Func<int, string>? name = null)
    {
        var bag = new Bag { Id = name?.Invoke(0) ?? "b1", Coffee = Coffee(1, name?.Invoke(1)), RoastDate = new DateOnly(2025, 1, 1), OpenedOn = new DateOnly(2025, 1, 8) };
        var cups = Enumerable.Range(0, count).Select(i => new TimelineCup(
            new Tasting
            {
                Id = $"t{i}",
                Bag = bag,
                TastedAt = new DateTime(2025, 1, 9).AddDays(i * 30 / count),
                Brewer = name?.Invoke(2 + (i % brewers)) ?? $"brewer {i % brewers}",
                Recipe = name?.Invoke(3) ?? "house 1:16",
                Failed = i == 3,
                FrozenOn = i >= count - 2 ? new DateOnly(2025, 1, 12) : null,
                ThawedOn = i >= count - 2 ? new DateOnly(2025, 1, 9).AddDays(i * 30 / count) : null,
                Score = i == 5 ? null : 5 + (i % 4 * 0.5),
            },
            8 + (i * 30 / count), i is not (3 or 5))).ToArray();
        return new BagTimeline(bag, cups, 5.8, new MeanInterval(5.4, 6.2), Scale, [], Computation(count - 2), Support.Given);
    }

    public static NextBrew NextBrew(int count = 32, bool isProbability = false, Func<int, string>? name = null)
    {
        string[] brewers = ["cone dripper", "flat-bed dripper", "thick-paper carafe", "steep-and-release"];
        var now = new BrewStand(isProbability ? 0.42 : 0.412, isProbability);
        var gains = Enumerable.Range(0, count).Select(i =>
        {
            var gain = (isProbability ? 0.048 : 0.21) * Math.Exp(-0.2 * i);
            var cup = new BrewCandidate(
                new Bag { Id = name?.Invoke(i) ?? $"b{i / 4:000}", Coffee = Coffee(i / 4, name?.Invoke(i)) }, name?.Invoke(i) ?? brewers[i % 4], name?.Invoke(i) ?? (i % 3 == 0 ? "roaster" : "house"),
                new DateOnly(2026, 1, 1), 1, i % 7 == 6 ? null : 12 + i, 245 - (7 * i % 200), i % 9 == 8);
            return new BrewGain(cup, gain, new BrewStand(isProbability ? now.Value + gain : now.Value * Math.Sqrt(1 - gain), isProbability), 3 + (i * 5 % 11), "the brewer counts most");
        }).ToArray();
        PlannedBrew[] plan = [.. new[] { 0, Math.Min(2, count - 1), 0 }.Select((i, step) => new PlannedBrew(gains[i].Candidate, new BrewStand(isProbability ? 0.46 + (0.02 * step) : 0.37 - (0.03 * step), isProbability)))];
        Coffee[] coffees = isProbability ? [.. Enumerable.Range(0, 5).Select(i => Coffee(i, name?.Invoke(i)))] : [];
        var asked = isProbability ? BrewQuestion.BestCoffee() : BrewQuestion.BetterBrewer(name?.Invoke(0) ?? brewers[0], name?.Invoke(1) ?? brewers[1]);
        return new NextBrew(
            asked, isProbability ? "which coffee is the best (5 have a chance of 1 % or more)" : $"{name?.Invoke(0) ?? brewers[0]} against {name?.Invoke(1) ?? brewers[1]} (brewer), over coffees like the log\u2019s",
            coffees, isProbability ? 0 : null, Brew, now, gains, plan, [new BagsLeftOut("with less than a dose left", 40)], Scale, [], Computation(446), Support.Given);
    }

    public static ScaleDrift Drift(bool anchored = true, Support? support = null)
    {
        var together = new DriftSlope(-0.06, -0.25, 0.13, 0.1, 400);
        var drift = new DriftSlope(0.7, 0.05, 1.35, 0.33, 365);
        DriftCase found = anchored
            ? new DriftCase.Anchored(
            [
                new AnchoredDrift(new DriftAnchor.FrozenDoses(24, 1, 0), drift, together),
                new AnchoredDrift(new DriftAnchor.FrozenDoses(24, 1, 0.3), drift with { Estimate = 1, Low = 0.35, High = 1.65 }, together),
                new AnchoredDrift(new DriftAnchor.RoastedAgain(4, 8), new DriftSlope(0.1, -1.4, 1.6, 0.5, 3), null),
            ])
            : new DriftCase.NoAnchor(["No frozen dose was tasted."]);
        return new ScaleDrift(
            TastingAttribute.Score, Scale, found, [new IdentifiedSum(DriftSum.RestAndDrift, together, 431, 67)], (11, 42), true, 0.3, [], Computation(458), support ?? Support.Given);
    }

    /// <summary>Quarters of which the third has two bags, and so no intervals.</summary>
    public static ScaleUse Steps(int quarters = 4, int steps = 6, bool withModel = true, string? attribute = null, Support? support = null)
    {
        var groups = Enumerable.Range(0, steps).Select(g => new StepGroup(5 + (g / 2.0), g == steps - 1 ? 9 : 5 + (g / 2.0), 30 + (7 * g % 40))).ToArray();
        var list = Enumerable.Range(0, quarters).Select(q =>
        {
            var from = new DateOnly(2025, 1, 1).AddMonths(3 * q);
            var shares = groups.Select((group, g) =>
            {
                var share = (1 + ((g + q) % 3)) / (2.0 * steps);
                return new StepShare(group, 3 + g, share, q == 2 ? null : new MeanInterval(0.5 * share, 1.8 * share));
            }).ToArray();
            return new ScaleQuarter(from, $"{from:yyyy} Q{((from.Month - 1) / 3) + 1}", 110, q == 2 ? 2 : 20, 0.8, q == 2 ? null : new MeanInterval(0.7, 0.9), shares, shares, null);
        }).ToArray();
        var moves = list.SelectMany((quarter, q) => groups.Skip(1).Select((group, g) => new ThresholdMove(quarter.Label, group.From, 0.3 * Math.Sin(q + (2 * g)), (0.3 * Math.Sin(q + (2 * g))) - 0.15, (0.3 * Math.Sin(q + (2 * g))) + 0.15))).ToArray();
        StepMovement movement = withModel
            ? new StepMovement.Estimated(0.004, 12, moves, [.. list.Select(quarter => new WidthMove(quarter.Label, 0.1, -0.1, 0.3))], 440)
            : new StepMovement.Refused("Whether steps moved can\u2019t be told: 40 cups.", "Go on logging.");
        return new ScaleUse(
            attribute is null ? TastingAttribute.Score : TastingAttribute.Named(attribute), Scale, "quarter", support is null ? list : [], support is null ? groups : [], [1, 1.5], movement, new TopOfScale(9, 0.04), [], Computation(440), support ?? Support.Given);
    }

    public static LabelEffect Label(int premiums = 3, Func<int, string>? name = null, Support? support = null)
    {
        var all = Enumerable.Range(0, premiums).Select(i => new LabelPremium(
            name?.Invoke(i) ?? new[] { "the roaster\u2019s reputation", "the price", "the course over the year" }[i % 3], name?.Invoke(i) ?? "point",
            new PartAnswer.Estimated(0.2 - (0.1 * i), -0.1 - (0.1 * i), 0.5, 60, "30 pairs of 28 coffees, 11 roasters"), 0.04, i == 0 ? 0.03 : 0.4))
            .Append(new LabelPremium("Peru against other countries", "pair", new PartAnswer.Refused("2 pairs against 30.", "Pair more."), 1, 1)).ToArray();
        var pairs = Enumerable.Range(0, 30).Select(i => new LabelPair(new Bag { Id = $"b{i}", Coffee = Coffee(i) }, new DateOnly(2025, 1, 1).AddDays(11 * i), 0.5 * (i % 3), i % 2 == 0 ? 1 : -1, 2, false, 6.5)).ToArray();
        return new LabelEffect(
            TastingAttribute.Score, Scale, pairs, new PartAnswer.Estimated(0.31, 0.12, 0.5, 60, "30 pairs of 28 coffees, 11 roasters"),
            new PartAnswer.Estimated(-0.05, -0.2, 0.1, 60, "30 pairs of 28 coffees, 11 roasters"), all, new PartAnswer.Estimated(0.6, 0.3, 0.9, 380, "40 coded and 340 sighted cups outside pairs"),
            [], Computation(60), support ?? Support.Given);
    }

    /// <summary>Kinds whose outcomes go round; one kind without a factor.</summary>
    public static RestPeaks Peaks(int kinds = 4, int days = 40, Func<int, string>? name = null, Support? support = null)
    {
        string[] processes = ["honey", "natural", "washed", "wet-hulled"];
        RestOutcome[] outcomes =
        [
            new RestOutcome.Peak(20, 14, 27), new RestOutcome.StillRising(), new RestOutcome.Undetermined("neither a rise nor a fall over the days tasted is sure"),
            new RestOutcome.FallingFromTheStart(), new RestOutcome.Flat(0.5),
        ];
        var groups = Enumerable.Range(0, kinds).Select(i =>
        {
            var course = Enumerable.Range(5, days).Select(day =>
            {
                var estimate = 7 - (0.002 * (day - 20) * (day - 20)) - (0.1 * i);
                return new RestDay(day, estimate, estimate - 0.3 - (0.01 * Math.Abs(day - 20)), estimate + 0.35, Math.Clamp(1 - (0.004 * (day - 20) * (day - 20)), 0, 1));
            }).ToArray();
            var tasted = Enumerable.Range(4, days + 3).Select(day => new RestCups(day, 6.8 + (0.7 * Math.Sin(day + i)), 1 + (day % 5))).Append(new RestCups(300, 5, 2)).ToArray();
            return new RestGroup(
                name?.Invoke(i) ?? (kinds == 1 ? "all coffees" : i < processes.Length ? processes[i] : $"kind {i:00}"), outcomes[i % outcomes.Length], course, 9, 31, 0.93,
                [new RestUnderDrift(-0.5, new RestOutcome.Peak(21, 15, 28)), new RestUnderDrift(0.5, new RestOutcome.Undetermined("no"))], tasted, 12 + i);
        }).ToArray();
        return new RestPeaks(
            new RestPeaksAnalysis.Question(kinds == 1 ? null : Factor.Process, TastingAttribute.Score, 0.25, 0.5, 0.5), groups, [], Brew with { RestDays = null }, Scale, [],
            Computation(430), support ?? Support.Given);
    }

    public static ScoreRise Rise(string? name = null, Support? support = null)
    {
        RisePart[] parts =
        [
            new("country", RiseSource.Purchasing, 0.12, -0.02, 0.27), new("roaster", RiseSource.Purchasing, 0.05, -0.06, 0.16), new("brewer", RiseSource.Brewing, -0.03, -0.06, -0.01),
            new($"change of {name ?? "water"} on 2025-09-01", RiseSource.Equipment, 0.2, -0.1, 0.5), new("coffees within like kinds", RiseSource.Coffees, 0.06, -0.3, 0.42),
            new("drift of the scale", RiseSource.Drift, 0.15, -0.2, 0.5), new("the chance of cups and sittings", RiseSource.Chance, -0.04, -0.16, 0.08),
        ];
        RisePeriod Period(int month, double mean) => new(new DaySpan(new(2025, month, 1), new(2025, month + 2, 20)), mean, 110, 21, 20);
        return new ScoreRise(
            TastingAttribute.Score, Scale, Period(1, 6.11), Period(10, 6.62), new RisePart("raw change", RiseSource.Chance, 0.51, 0.12, 0.9), parts, new RisePart("coffees bought", RiseSource.Purchasing, 0.17, -0.01, 0.36),
            parts[2] with { What = "brews" }, new RisePart("steady change beyond the mix", RiseSource.Coffees, 0.18, -0.2, 0.6),
            new RiseDrift.Anchored(new AnchoredDrift(new DriftAnchor.FrozenDoses(24, 1, 0), new DriftSlope(0.2, -0.27, 0.67, 0.24, 300), null)), true, [], Computation(446), support ?? Support.Given);
    }

    private static AnchoredDrift ByDoses { get; } = new(new DriftAnchor.FrozenDoses(24, 1, 0), new DriftSlope(0.6, -0.2, 1.4, 0.4, 300), null);

    public static AdjustedScores OneScale(Support? support = null)
    {
        AdjustedScore Cup(int month, double written) => new(
            new Tasting { Id = $"t{month}", Bag = new Bag { Id = "b", Coffee = new Coffee { Id = "c" } }, TastedAt = new DateTime(2025, month, 2) }, written, written - 0.1, written - 0.3, written + 0.1, (month - 7) / 12.0);
        return new AdjustedScores(
            TastingAttribute.Score, Scale, ByDoses, new DateOnly(2025, 7, 2), [.. Enumerable.Range(1, 12).Select(month => Cup(month, 6 + (0.1 * month)))], [], Computation(12), support ?? Support.Given,
            _ => throw new NotSupportedException("Of drawn cups there are no favourites."));
    }

    public static AdjustedFavourites OneScaleFavourites(string? name = null, Support? support = null) => new(
        [.. Enumerable.Range(1, 9).Select(i => new AdjustedFavourite(
            new Coffee { Id = $"c{i}", Name = (name ?? "coffee ") + i, Roaster = "a roaster" }, i, 8 - (0.2 * i), 7.5 - (0.2 * i), 8.5 - (0.2 * i), i % 9 + 1, 7.9 - (0.15 * i), 0.1))],
        ByDoses, Brew, Scale, [], Computation(430), support ?? Support.Given);

    public static DriftPlan Doses(Support? support = null)
    {
        DriftPlanOption Of(int doses, double half, double power) => new($"{doses} doses of one coffee over the year", doses, 365.25 / doses, half, power);
        DriftPlanOption doses = Of(41, 0.43, 0.8), flight = new("a dose of each of 38 bags, at one sitting at the year's end", 38, null, 0.42, 0.81);
        return new DriftPlan(0.6, Scale, doses, flight, [Of(6, 1.15, 0.18), Of(12, 0.8, 0.31), Of(24, 0.56, 0.56), doses, Of(52, 0.38, 0.87), flight], 0.41, [], Computation(458), support ?? Support.Given);
    }
}
