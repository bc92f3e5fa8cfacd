using TastingKit.Statistics;

namespace TastingKit;

/// <summary>A fixed term of a method's model, with how a cup that is yet to be brewed stands in it.</summary>
/// <param name="Column">The term's column.</param>
/// <param name="With">A setting with the cup's level or value; nothing for a term that no planned cup is asked of.</param>
internal sealed record MethodTerm(Column Column, Func<Setting, Tasting, Setting>? With = null)
{
    /// <summary>A part of the brew; a cup of a level that the log does not have stays at the log's average.</summary>
    public static MethodTerm Of(Factor factor, CategoricalColumn column) => new(
        column, (setting, cup) => column.Has(factor.LevelOf(cup)) ? setting.With(column.Name, factor.LevelOf(cup)) : setting);

    /// <summary>A number of the brew about its mean, and whether it is stated; nothing where few cups state it or all the same.</summary>
    public static IReadOnlyList<MethodTerm> Of(Covariate covariate, IReadOnlyList<Tasting> cups)
    {
        var columns = ScoreColumns.Stated(covariate, cups);
        if (columns.Count == 0)
            return [];
        var mean = cups.Select(covariate.ValueOf).OfType<double>().Average();
        return
        [
            new MethodTerm(columns[0], (setting, cup) => setting.With(columns[0].Name, (covariate.ValueOf(cup) ?? mean) - mean)),
            .. columns.Skip(1).Select(stated => new MethodTerm(stated, (setting, cup) => setting.With(stated.Name, covariate.ValueOf(cup) is null ? "no" : "yes"))),
        ];
    }

    /// <summary>A coffee's mean, which further cups of it leave where it is; of a coffee that no cup has, the log's average.</summary>
    public static MethodTerm OfMean(NumericColumn mean, IReadOnlyList<Tasting> cups)
    {
        var rows = new Lazy<Dictionary<string, int>>(() => cups.Index().DistinctBy(cup => cup.Item.Bag.Coffee.Id).ToDictionary(cup => cup.Item.Bag.Coffee.Id, cup => cup.Index));
        return new MethodTerm(mean, (setting, cup) => rows.Value.TryGetValue(cup.Bag.Coffee.Id, out var row) ? setting.With(mean.Name, mean.Values[row]) : setting);
    }
}
