using System.Diagnostics;
using System.Text.Json.Nodes;
using TastingKit.Statistics;

namespace TastingKit.Reference;

/// <summary>The figures of an ordinal model.</summary>
internal static class OrdinalFigures
{
    private const int FirstLevels = 10;

    public static JsonObject Of(ModelDescription model, CaseColumns columns)
    {
        OrdinalDesign design = Design(model, columns);
        var options = new OrdinalMixedModelOptions
        {
            Link = model.Link switch
            {
                "logit" => OrdinalLink.Logit,
                "probit" => OrdinalLink.Probit,
                _ => throw new CaseException($"Model '{model.Id}' has the link '{model.Link}'; known are logit and probit."),
            },
            QuadraturePoints = model.Quadrature,
        };
        var clock = Stopwatch.StartNew();
        var fit = OrdinalMixedModel.Fit(design, options);
        double seconds = clock.Elapsed.TotalSeconds;
        var figures = new JsonObject
        {
            ["id"] = model.Id,
            ["singular"] = fit.IsSingular,
            ["coefficients"] = new JsonArray([.. fit.Coefficients.Select(c => new JsonObject
            {
                ["name"] = c.Name,
                ["part"] = PartName(c.Part),
                ["estimate"] = c.Estimate,
                ["se"] = c.StandardError,
                ["z"] = c.Z,
                ["p"] = c.P,
            })]),
            ["loglik"] = fit.LogLikelihood,
            ["random"] = new JsonArray([.. fit.VarianceComponents.Select((c, t) => new JsonObject
            {
                ["group"] = c.Group,
                ["n_levels"] = c.LevelCount,
                ["terms"] = new JsonArray([.. c.Terms.Select(name => JsonValue.Create(name))]),
                ["sd"] = c.StandardDeviations[0],
                ["se_of_log_sd"] = fit.StandardErrorOfLogDeviation(t),
            })]),
            ["conditional_modes"] = ConditionalModes(fit),
        };
        if (model.MarginalMeans.Count > 0)
        {
            figures["emmeans"] = MarginalMeans(model, columns, fit);
        }

        figures["cautions"] = new JsonArray([.. fit.Cautions.Select(c => JsonValue.Create(c))]);
        figures["evaluations"] = fit.Convergence.Evaluations;
        figures["seconds"] = seconds;
        return figures;
    }

    private static OrdinalDesign Design(ModelDescription model, CaseColumns columns)
    {
        var design = OrdinalDesign.For(columns.Ordered(model.Response));
        foreach (var term in model.Fixed)
        {
            design = term.Count == 1 ? design.WithFixed(columns.Column(term[0])) : design.WithInteraction([.. term.Select(columns.Column)]);
        }

        design = model.Scale.SelectMany(t => t).Aggregate(design, (d, name) => d.WithScale(columns.Column(name)));
        design = model.Nominal.SelectMany(t => t).Aggregate(design, (d, name) => d.WithNominal(columns.Column(name)));
        foreach (var term in model.Random)
        {
            var group = columns.Group(term.Group);
            design = term.Intercept ? design.WithRandomIntercept(group) : design;
            foreach (string slope in term.Slopes)
            {
                design = !term.Intercept && term.Slopes.Count == 1 && columns.Column(slope) is NumericColumn covariate
                    ? design.WithRandomSlope(group, covariate)
                    : throw new CaseException($"Model '{model.Id}' asks for correlated random effects or a factor's slopes by '{group.Name}'; ordinal models take an intercept or the slope of one covariate a term.");
            }
        }

        return model.Weights is null ? design : design.WithWeights(columns.Numbers(model.Weights));
    }

    private static string PartName(OrdinalPart part) => part switch
    {
        OrdinalPart.Threshold => "threshold",
        OrdinalPart.Location => "location",
        _ => "log-scale",
    };

    // Under the names of linear models, and, where a level has one effect, under the short ones too.
    private static JsonObject ConditionalModes(OrdinalMixedModelFit fit)
    {
        var groups = new JsonObject();
        foreach (string group in fit.VarianceComponents.Select(c => c.Group).Distinct())
        {
            var levels = fit.ConditionalModes(group).GroupBy(m => m.Level).OrderBy(l => l.Key, StringComparer.Ordinal).ToArray();
            groups[group] = new JsonObject
            {
                ["n_levels"] = levels.Length,
                ["first"] = new JsonArray([.. levels.Take(FirstLevels).Select(level =>
                {
                    var row = new JsonObject { ["level"] = level.Key };
                    if (level.Count() == 1)
                    {
                        row["mode"] = level.First().Mode;
                        row["sd"] = level.First().StandardDeviation;
                    }

                    foreach (var mode in level)
                    {
                        row[$"mode.{mode.Term}"] = mode.Mode;
                        row[$"sd.{mode.Term}"] = mode.StandardDeviation;
                    }

                    return row;
                })]),
            };
        }

        return groups;
    }

    private static JsonArray MarginalMeans(ModelDescription model, CaseColumns columns, OrdinalMixedModelFit fit)
    {
        var setting = LinearFigures.SettingOf(model, columns);
        return new JsonArray([.. model.MarginalMeans.Select(factors => LinearFigures.MarginalTable(factors, () => fit.Cells(factors, setting), f => fit.Estimate(f),
            adjustment => fit.Contrasts(factors, adjustment, setting)))]);
    }
}
