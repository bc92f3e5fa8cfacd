using System.Diagnostics;
using System.Text.Json.Nodes;
using TastingKit.Statistics;

namespace TastingKit.Reference;

/// <summary>The figures of a linear model, by restricted and by full maximum likelihood.</summary>
internal static class LinearFigures
{
    private const int FirstLevels = 10;

    public static JsonObject Of(ModelDescription model, CaseColumns columns)
    {
        ModelDesign design = Design(model, columns);
        var clock = Stopwatch.StartNew();
        var fit = LinearMixedModel.Fit(design);
        double seconds = clock.Elapsed.TotalSeconds;
        var byMaximumLikelihood = LinearMixedModel.Fit(design, new LinearMixedModelOptions { Criterion = EstimationCriterion.MaximumLikelihood });
        return new JsonObject
        {
            ["id"] = model.Id,
            ["singular"] = fit.IsSingular,
            ["fixed"] = FixedEffects(fit),
            ["random"] = VarianceComponents(fit),
            ["residual"] = new JsonObject { ["sd"] = fit.ResidualStandardDeviation },
            ["reml_criterion"] = fit.Deviance,
            ["loglik_reml"] = fit.LogLikelihood,
            ["ml"] = new JsonObject
            {
                ["deviance"] = byMaximumLikelihood.Deviance,
                ["loglik"] = byMaximumLikelihood.LogLikelihood,
                ["fixed"] = FixedEffects(byMaximumLikelihood),
                ["random"] = VarianceComponents(byMaximumLikelihood),
                ["residual"] = new JsonObject { ["sd"] = byMaximumLikelihood.ResidualStandardDeviation },
            },
            ["conditional_modes"] = ConditionalModes(model, fit),
            ["emmeans"] = MarginalMeans(model, columns, fit),
            ["cautions"] = new JsonArray([.. fit.Cautions.Select(c => JsonValue.Create(c))]),
            ["evaluations"] = fit.Convergence.Evaluations,
            ["seconds"] = seconds,
        };
    }

    private static ModelDesign Design(ModelDescription model, CaseColumns columns)
    {
        var design = ModelDesign.For(model.Response, columns.Numbers(model.Response));
        design = model.Intercept ? design : design.WithoutIntercept();
        foreach (var term in model.Fixed)
        {
            design = term.Count == 1 ? design.WithFixed(columns.Column(term[0])) : design.WithInteraction([.. term.Select(columns.Column)]);
        }

        foreach (var term in model.Random)
        {
            design = design.WithRandomEffects(columns.Group(term.Group), term.Intercept, [.. term.Slopes.Select(columns.Column)]);
        }

        return model.Weights is null ? design : design.WithWeights(columns.Numbers(model.Weights));
    }

    private static JsonArray FixedEffects(LinearMixedModelFit fit) => new([.. fit.FixedEffects.Select(e => new JsonObject
    {
        ["name"] = e.Name,
        ["estimate"] = e.Estimate,
        ["se"] = e.StandardError,
        ["df"] = e.DegreesOfFreedom,
        ["t"] = e.T,
        ["p"] = e.P,
    })]);

    private static JsonArray VarianceComponents(LinearMixedModelFit fit) => new([.. fit.VarianceComponents.Select(c =>
    {
        var component = new JsonObject
        {
            ["group"] = c.Group,
            ["n_levels"] = c.LevelCount,
            ["terms"] = new JsonArray([.. c.Terms.Select(t => JsonValue.Create(t))]),
            ["sd"] = new JsonArray([.. c.StandardDeviations.Select(s => JsonValue.Create(s))]),
        };
        if (c.Terms.Count > 1)
        {
            component["correlation"] = new JsonArray([.. Enumerable.Range(0, c.Terms.Count).Select(i =>
                new JsonArray([.. Enumerable.Range(0, c.Terms.Count).Select(j => JsonValue.Create(c.Correlation(i, j)))]))]);
        }

        return component;
    })]);

    private static JsonObject ConditionalModes(ModelDescription model, LinearMixedModelFit fit)
    {
        var groups = new JsonObject();
        foreach (string group in model.Random.Select(r => string.Join(':', r.Group)).Distinct())
        {
            groups[group] = Modes(fit.ConditionalModes(group).Rows);
        }

        return groups;
    }

    private static JsonObject Modes(IReadOnlyList<ConditionalMode> rows)
    {
        var levels = rows.GroupBy(r => r.Level).OrderBy(l => l.Key, StringComparer.Ordinal).ToArray();
        string[] terms = [.. rows.Select(r => r.Term).Distinct()];
        return new JsonObject
        {
            ["n_levels"] = levels.Length,
            ["sum_of_squares_of_modes"] = new JsonArray([.. terms.Select(t => JsonValue.Create(rows.Where(r => r.Term == t).Sum(r => r.Mode * r.Mode)))]),
            ["first"] = new JsonArray([.. levels.Take(FirstLevels).Select(level =>
            {
                var row = new JsonObject { ["level"] = level.Key };
                foreach (var mode in level)
                {
                    row[$"mode.{mode.Term}"] = mode.Mode;
                    row[$"sd.{mode.Term}"] = mode.StandardDeviation;
                }

                return row;
            })]),
        };
    }

    private static JsonArray MarginalMeans(ModelDescription model, CaseColumns columns, LinearMixedModelFit fit)
    {
        var setting = SettingOf(model, columns);
        return new JsonArray([.. model.MarginalMeans.Select(factors => MarginalTable(factors, () => fit.Cells(factors, setting), f => fit.Estimate(f),
            adjustment => fit.Contrasts(factors, adjustment, setting)))]);
    }

    /// <summary>The means of one factor, or of the combinations of several, and their pairs; shared by both kinds of model.</summary>
    internal static JsonObject MarginalTable(IReadOnlyList<string> factors, Func<IReadOnlyList<NamedFunction>> cells, Func<LinearFunction, Estimate> estimate, Func<Adjustment, IReadOnlyList<Contrast>> contrasts)
    {
        var table = new JsonObject { ["factor"] = string.Join(':', factors) };
        try
        {
            var functions = cells();
            table["means"] = new JsonArray([.. functions.Select(cell => MeanRow(cell.Name, estimate(cell.Function)))]);
            table["pairs"] = PairRows([.. functions.Select(m => m.Name)], contrasts(Adjustment.Tukey), contrasts(Adjustment.Holm));
        }
        catch (ModelException error)
        {
            // A combination without data has no mean; the model's other figures stand.
            table["error"] = error.Message;
        }

        return table;
    }

    /// <summary>Factors averaged and covariates at their mean; a square stands at the square of its covariate's mean, not at the mean of the squares.</summary>
    internal static Setting SettingOf(ModelDescription model, CaseColumns columns) =>
        model.Fixed.SelectMany(t => t).Where(ModelDescription.IsSquare).Distinct().Aggregate(Setting.Averaged(), (s, square) =>
        {
            double mean = columns.Numeric(ModelDescription.BaseName(square)).Mean;
            return s.With(CaseColumns.SquareName(square), mean * mean);
        });

    private static JsonObject MeanRow(string level, Estimate mean) => new()
    {
        ["level"] = level,
        ["mean"] = mean.Value,
        ["se"] = mean.StandardError,
        ["df"] = mean.DegreesOfFreedom,
        ["lower95"] = mean.Low,
        ["upper95"] = mean.High,
    };

    private static JsonArray PairRows(string[] levels, IReadOnlyList<Contrast> tukey, IReadOnlyList<Contrast> holm)
    {
        var rows = new JsonArray();
        int pair = 0;
        for (int i = 0; i < levels.Length; i++)
        {
            for (int j = i + 1; j < levels.Length; j++, pair++)
            {
                rows.Add(new JsonObject
                {
                    ["contrast"] = $"{Label(levels[i])} - {Label(levels[j])}",
                    ["estimate"] = tukey[pair].Estimate,
                    ["se"] = tukey[pair].StandardError,
                    ["df"] = tukey[pair].DegreesOfFreedom,
                    ["statistic"] = tukey[pair].T,
                    ["p"] = tukey[pair].P,
                    ["p_tukey"] = tukey[pair].AdjustedP,
                    ["p_holm"] = holm[pair].AdjustedP,
                    ["lower95_tukey"] = tukey[pair].Low,
                    ["upper95_tukey"] = tukey[pair].High,
                });
            }
        }

        return rows;
    }

    // The reference software joins the levels of a combination by a blank, and brackets a label that holds an arithmetic sign.
    private static string Label(string level)
    {
        string label = level.Replace(':', ' ');
        return label.AsSpan().IndexOfAny("+-*/") >= 0 ? $"({label})" : label;
    }
}
