namespace TastingKit.Statistics;

public sealed partial class OrdinalMixedModelFit
{
    /// <summary>
    /// The location at a setting, less the mean of the thresholds: zero is a latent mean in the middle of the scale.
    /// </summary>
    /// <param name="setting">Factors at a level or averaged, covariates at a value or their mean.</param>
    /// <returns>A function of this fit.</returns>
    /// <exception cref="ArgumentException">The setting names something that is in neither the location nor the nominal part.</exception>
    public LinearFunction At(Setting setting)
    {
        ArgumentNullException.ThrowIfNull(setting);
        var location = new SettingEvaluator(_system.LocationDesign, _system.RowCount);
        var nominal = new SettingEvaluator(_system.NominalDesign, _system.RowCount);
        foreach (string name in setting.Levels.Keys.Concat(setting.Values.Keys))
        {
            if (!location.Variables.ContainsKey(name) && !nominal.Variables.ContainsKey(name))
            {
                throw new ArgumentException($"The model has no '{name}' in its location or nominal part; it has {string.Join(", ", location.Variables.Keys.Union(nominal.Variables.Keys).Select(v => $"'{v}'").DefaultIfEmpty("nothing"))}.", nameof(setting));
            }
        }

        var weights = new double[_system.LocationDesign.Width];
        AddSparse(weights, location.At(Restricted(setting, location)));

        // The constant of the location is what the thresholds are.
        weights[0] = 0.0;
        var shares = Shares(setting, nominal);
        return SettingEvaluator.Sparse(weights) - LinearFunction.Mean([.. Enumerable.Range(0, _system.Map.ThresholdCount).Select(j => ThresholdAt(j, shares))]);
    }

    /// <summary>
    /// One threshold between neighbouring categories at a setting of the nominal part, on the latent scale: the location's zero is where
    /// every covariate is zero and every factor at its first level.
    /// </summary>
    /// <param name="threshold">The threshold's number, from 0 for that above the lowest category.</param>
    /// <param name="setting">Factors at a level or averaged, covariates at a value or their mean; those of the location alone make no difference.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such threshold.</exception>
    public LinearFunction Threshold(int threshold, Setting setting)
    {
        ArgumentNullException.ThrowIfNull(setting);
        ArgumentOutOfRangeException.ThrowIfNegative(threshold);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(threshold, _system.Map.ThresholdCount);
        return ThresholdAt(threshold, Shares(setting, new SettingEvaluator(_system.NominalDesign, _system.RowCount)));
    }

    private double[] Shares(Setting setting, SettingEvaluator nominal)
    {
        var shares = new double[_system.NominalDesign.Width];
        AddSparse(shares, nominal.At(Restricted(setting, nominal)));
        return shares;
    }

    private LinearFunction ThresholdAt(int threshold, double[] shares)
    {
        var weights = new double[_system.LocationDesign.Width + _system.ThresholdParameters];
        for (int c = 0; c < _system.Nominal.Length; c++)
        {
            for (int k = 0; k < _system.Map.ParameterCount; k++)
            {
                weights[_system.LocationDesign.Width + c * _system.Map.ParameterCount + k] = shares[_system.NominalIndices[c]] * _system.Map.Jacobian[threshold, k];
            }
        }

        return SettingEvaluator.Sparse(weights);
    }

    /// <summary>The estimate of a function with its standard error and a large-sample interval.</summary>
    /// <param name="function">A function of this fit.</param>
    /// <param name="level">Coverage that the interval aims at, between 0 and 1.</param>
    /// <exception cref="ModelException">The function depends on coefficients that the data can't tell apart.</exception>
    public Estimate Estimate(LinearFunction function, double level = 0.95)
    {
        ArgumentNullException.ThrowIfNull(function);
        if (!(level > 0.0 && level < 1.0))
        {
            throw new ArgumentOutOfRangeException(nameof(level), level, "A coverage lies between 0 and 1.");
        }

        double[] weights = ParameterWeights(function);
        double value = 0.0;
        for (int i = 0; i < weights.Length; i++)
        {
            value += weights[i] * _parameters[i];
        }

        double error = Math.Sqrt(Quadratic(weights, weights));
        double half = NormalQuantile(level) * error;
        return new Estimate(value, error, double.PositiveInfinity, value - half, value + half, level);
    }

    /// <summary>Covariances of several functions' estimates, symmetric.</summary>
    /// <param name="functions">Functions of this fit.</param>
    public double[,] Covariances(IReadOnlyList<LinearFunction> functions)
    {
        ArgumentNullException.ThrowIfNull(functions);
        double[][] weights = [.. functions.Select(ParameterWeights)];
        var covariances = new double[weights.Length, weights.Length];
        for (int i = 0; i < weights.Length; i++)
        {
            for (int j = 0; j < weights.Length; j++)
            {
                covariances[i, j] = Quadratic(weights[i], weights[j]);
            }
        }

        return covariances;
    }

    /// <summary>Marginal means of a factor's levels on the latent scale, as <see cref="At"/> has it: other factors averaged, covariates at their mean.</summary>
    /// <param name="factor">A factor of the location or nominal part.</param>
    /// <param name="weights">How the other factors are averaged.</param>
    /// <exception cref="ArgumentException">There is no such factor.</exception>
    public IReadOnlyList<MarginalMean> MarginalMeans(string factor, MarginalWeights weights = MarginalWeights.Equal)
    {
        return [.. Cells([factor], Setting.Averaged(weights)).Select(cell =>
        {
            Estimate estimate = Estimate(cell.Function);
            return new MarginalMean(factor, cell.Name, estimate.Value, estimate.StandardError, estimate.DegreesOfFreedom, estimate.Low, estimate.High, weights);
        })];
    }

    /// <summary>All pairwise differences of a factor's marginal means on the latent scale, named "a - b" in the order of the levels.</summary>
    /// <param name="factor">A factor of the location or nominal part.</param>
    /// <param name="adjustment">How the family of pairs is allowed for.</param>
    /// <param name="weights">How the other factors are averaged.</param>
    /// <param name="level">Coverage of the intervals.</param>
    /// <param name="seed">Seed of the simultaneous adjustment.</param>
    public IReadOnlyList<Contrast> Contrasts(string factor, Adjustment adjustment = Adjustment.Simultaneous, MarginalWeights weights = MarginalWeights.Equal, double level = 0.95, ulong seed = 1) =>
        Contrasts([factor], adjustment, Setting.Averaged(weights), level, seed);

    /// <summary>All pairwise differences of the latent means of combinations of several factors.</summary>
    /// <param name="factors">One or more factors.</param>
    /// <param name="adjustment">How the family of pairs is allowed for.</param>
    /// <param name="at">Where the other factors and the covariates stand, or null for equal weights and means.</param>
    /// <param name="level">Coverage of the intervals.</param>
    /// <param name="seed">Seed of the simultaneous adjustment.</param>
    public IReadOnlyList<Contrast> Contrasts(IReadOnlyList<string> factors, Adjustment adjustment = Adjustment.Simultaneous, Setting? at = null, double level = 0.95, ulong seed = 1)
    {
        var cells = Cells(factors, at ?? Setting.Averaged());
        if (cells.Count < 2)
        {
            throw new ArgumentException($"'{string.Join(':', factors)}' has {cells.Count} level; a contrast needs two.", nameof(factors));
        }

        var pairs = new List<NamedFunction>();
        for (int i = 0; i < cells.Count; i++)
        {
            for (int j = i + 1; j < cells.Count; j++)
            {
                pairs.Add(new NamedFunction($"{cells[i].Name} - {cells[j].Name}", cells[i].Function - cells[j].Function));
            }
        }

        return ContrastFamily.Of(this, pairs, adjustment, level, seed, cells);
    }

    /// <summary>The latent mean at every combination of levels of factors, the first factor's level changing fastest, named by the levels joined by ':'.</summary>
    /// <param name="factors">Factors of the location or nominal part.</param>
    /// <param name="at">Where everything else stands.</param>
    public IReadOnlyList<NamedFunction> Cells(IReadOnlyList<string> factors, Setting at)
    {
        ArgumentNullException.ThrowIfNull(factors);
        ArgumentNullException.ThrowIfNull(at);
        if (factors.Count == 0)
        {
            throw new ArgumentException("Marginal means need at least one factor.", nameof(factors));
        }

        var cells = new List<(string Name, Setting Setting)> { ("", at) };
        foreach (string factor in factors.Reverse())
        {
            cells = [.. cells.SelectMany(cell => Factor(factor).Levels.Select(level =>
                (cell.Name.Length == 0 ? level : $"{level}:{cell.Name}", cell.Setting.With(factor, level))))];
        }

        return [.. cells.Select(cell => new NamedFunction(cell.Name, At(cell.Setting)))];
    }

    private CategoricalColumn Factor(string name)
    {
        var variables = new SettingEvaluator(_system.LocationDesign, _system.RowCount).Variables.Values
            .Concat(new SettingEvaluator(_system.NominalDesign, _system.RowCount).Variables.Values).OfType<CategoricalColumn>().ToArray();
        return Array.Find(variables, v => v.Name == name)
            ?? throw new ArgumentException($"The model has no factor '{name}'; it has {string.Join(", ", variables.Select(v => $"'{v.Name}'").Distinct().DefaultIfEmpty("none"))}.", nameof(name));
    }

    private double[] ParameterWeights(LinearFunction function)
    {
        var weights = new double[_system.ParameterCount];
        for (int i = 0; i < function.Indices.Length; i++)
        {
            int index = function.Indices[i];
            if (index >= _system.LocationDesign.Width)
            {
                weights[index - _system.LocationDesign.Width] += function.Weights[i];
                continue;
            }

            int kept = Array.IndexOf(_system.LocationIndices, index);
            if (kept < 0)
            {
                throw new ModelException($"The function depends on '{_system.LocationDesign.Names[index]}', which the data can't tell from other coefficients or from the thresholds.");
            }

            weights[_system.LocationOffset + kept] += function.Weights[i];
        }

        return weights;
    }

    private double Quadratic(double[] left, double[] right)
    {
        double sum = 0.0;
        for (int i = 0; i < left.Length; i++)
        {
            if (left[i] == 0.0)
            {
                continue;
            }

            for (int j = 0; j < right.Length; j++)
            {
                sum += left[i] * _covariance[i, j] * right[j];
            }
        }

        return sum;
    }

    private static Setting Restricted(Setting setting, SettingEvaluator evaluator)
    {
        var restricted = Setting.Averaged(setting.Weights);
        restricted = setting.Levels.Where(l => evaluator.Variables.ContainsKey(l.Key)).Aggregate(restricted, (s, l) => s.With(l.Key, l.Value));
        return setting.Values.Where(v => evaluator.Variables.ContainsKey(v.Key)).Aggregate(restricted, (s, v) => s.With(v.Key, v.Value));
    }

    private static void AddSparse(double[] weights, LinearFunction function)
    {
        for (int i = 0; i < function.Indices.Length; i++)
        {
            weights[function.Indices[i]] += function.Weights[i];
        }
    }
}
