namespace TastingKit;

/// <summary>What a reader must know before repeating where a change came from.</summary>
internal static class RiseCautions
{
    private const int FewBags = 8;
    private const double ShareInOnePeriod = 0.25;
    private const double DaysOfRest = 3;
    private const int LevelsNamed = 4;

    public static IReadOnlyList<Caution> Of(
        TastingLog log, IReadOnlyList<Tasting> cups, TastingAttribute attribute, (DaySpan Earlier, DaySpan Later) periods, double[] weights, RiseModel model, RiseDrift drift,
        ScoreColumns columns, IReadOnlyList<RisePeriod> both, ulong seed)
    {
        var cautions = new List<Caution>();
        foreach (var thin in both.Where(period => period.Bags < FewBags))
            cautions.Add(new Caution("few-bags", $"From {thin.Days} the cups came of {NumberText.Count(thin.Bags, "bag")}: which these happened to be is most of such a mean."));
        foreach (var factor in model.PurchasingFactors)
        {
            if (OnePeriodOnly(factor, cups, weights) is { } caution)
                cautions.Add(caution);
        }

        if (model.Untold.Count > 0)
        {
            cautions.Add(new Caution("settled-by-others",
                $"The share of {string.Join(", ", model.Untold)} can\u2019t be told: others of the log\u2019s factors settle it, and hold what it did."));
        }

        if (ScoreCautions.ChangesAmong(log, cups).Where(change => change.ChangedOn > periods.Earlier.From && change.ChangedOn <= periods.Later.To).ToArray() is { Length: > 0 } changes)
        {
            cautions.Add(new Caution("equipment-changed",
                $"Water or equipment changed ({ScoreCautions.Said(changes)}). Each is allowed for as one step for all cups after it, told from better coffee and drift only by being sudden."));
        }

        if (drift is RiseDrift.NotTold && model.FurtherRestDays is { } days && Math.Abs(days) >= DaysOfRest)
        {
            cautions.Add(new Caution("rest-runs-with-calendar",
                $"The later cups were rested {NumberText.Fixed(Math.Abs(days), 0)} days {(days > 0 ? "longer" : "less")}: what rest does is told within bags, where a drift of the scale runs along, so that the share of rest holds the drift of so many days."));
        }

        if (drift is RiseDrift.Stated)
            cautions.Add(new Caution("stated-by-user", "What rest does was stated by the user and not told by the log: the share of drift is as good as that statement."));
        if (ScoreCautions.Ceiling([.. cups.Select(c => c.ValueOf(attribute)!.Value)], log.ScaleOf(attribute)) is { } ceiling)
            cautions.Add(ceiling);
        var residuals = model.ResidualsWithOwnRuns();
        if (ScoreCautions.HangTogether(residuals, cups, seed) is { } alike)
            cautions.Add(alike);
        if (BrewedAgain.In(residuals, cups, log.Tastings, "A stretch of days then holds more cups of the bags that had such a one, and its mean leans on them.", seed) is { } again)
            cautions.Add(again);
        if (CarryOver.In(model.Fit, cups, attribute, columns.SessionsLeftOut is null ? columns.Session : null, seed) is { } carried)
            cautions.Add(carried);
        if (columns.SessionsLeftOut is { } left)
            cautions.Add(left);
        return cautions;
    }

    /// <summary>That much of a factor's mix is of levels that were bought in one of the two stretches alone.</summary>
    private static Caution? OnePeriodOnly(Factor factor, IReadOnlyList<Tasting> cups, double[] weights)
    {
        var levels = cups.Select((cup, row) => (Level: factor.LevelOf(cup), Weight: weights[row])).Where(each => each.Weight != 0).GroupBy(each => each.Level)
            .Select(level => (level.Key, Share: level.Sum(each => Math.Abs(each.Weight)) / 2, IsOfOne: level.All(each => each.Weight > 0) || level.All(each => each.Weight < 0)))
            .Where(level => level.IsOfOne).OrderByDescending(level => level.Share).ThenBy(level => level.Key, StringComparer.Ordinal).ToArray();
        var share = Math.Round(levels.Sum(level => level.Share), 9);
        return share < ShareInOnePeriod
            ? null
            : new Caution("one-period-only",
                $"{MethodWords.SentenceCase(factor.Name)}: {NumberText.Percent(share)} of these cups are of levels that were bought in one of the two stretches only ({string.Join(", ", levels.Take(LevelsNamed).Select(level => level.Key))}{(levels.Length > LevelsNamed ? " and others" : "")}). What these are worth is told between coffees alone, by other days of the log if at all.");
    }
}
