namespace TastingKit.Statistics;

/// <summary>Thresholds as linear functions of fewer parameters: θ = A α.</summary>
internal sealed class ThresholdMap
{
    private ThresholdMap(double[,] jacobian, string[] names)
    {
        Jacobian = jacobian;
        Names = names;
    }

    /// <summary>A: one row a threshold, one column a parameter.</summary>
    public double[,] Jacobian { get; }

    public string[] Names { get; }

    public int ParameterCount => Names.Length;

    public int ThresholdCount => Jacobian.GetLength(0);

    public static ThresholdMap Of(ThresholdStructure structure, IReadOnlyList<string> categories)
    {
        int count = categories.Count - 1;
        if (structure != ThresholdStructure.Flexible && count < 2)
        {
            throw new ModelException($"{structure} thresholds need three or more categories; the response has {categories.Count}.");
        }

        return structure switch
        {
            ThresholdStructure.Equidistant => Equidistant(count),
            ThresholdStructure.Symmetric => Symmetric(count),
            _ => Flexible(categories),
        };
    }

    /// <summary>The parameters whose thresholds come closest to those given, by least squares.</summary>
    public double[] Project(double[] thresholds)
    {
        int p = ParameterCount;
        var gram = new double[p, p];
        var right = new double[p];
        for (int j = 0; j < thresholds.Length; j++)
        {
            for (int i = 0; i < p; i++)
            {
                right[i] += Jacobian[j, i] * thresholds[j];
                for (int k = 0; k < p; k++)
                {
                    gram[i, k] += Jacobian[j, i] * Jacobian[j, k];
                }
            }
        }

        return SmallCholesky.Factor(gram).Solve(right);
    }

    private static ThresholdMap Flexible(IReadOnlyList<string> categories)
    {
        int count = categories.Count - 1;
        var jacobian = new double[count, count];
        var names = new string[count];
        for (int j = 0; j < count; j++)
        {
            jacobian[j, j] = 1.0;
            names[j] = $"{categories[j]}|{categories[j + 1]}";
        }

        return new ThresholdMap(jacobian, names);
    }

    private static ThresholdMap Equidistant(int count)
    {
        var jacobian = new double[count, 2];
        for (int j = 0; j < count; j++)
        {
            jacobian[j, 0] = 1.0;
            jacobian[j, 1] = j;
        }

        return new ThresholdMap(jacobian, ["threshold.1", "spacing"]);
    }

    // An odd number of thresholds has one in the centre, an even number two about it; spacings are distances from there.
    private static ThresholdMap Symmetric(int count)
    {
        int centres = count % 2 == 1 ? 1 : 2;
        int spacings = (count - centres) / 2;
        var jacobian = new double[count, centres + spacings];
        for (int j = 0; j < count; j++)
        {
            bool low = j < spacings;
            bool high = j >= count - spacings;
            jacobian[j, centres == 2 && 2 * j >= count ? 1 : 0] = 1.0;
            if (low)
            {
                jacobian[j, centres + spacings - 1 - j] = -1.0;
            }
            else if (high)
            {
                jacobian[j, centres + j - (count - spacings)] = 1.0;
            }
        }

        string[] names = centres == 1 ? ["central"] : ["central.1", "central.2"];
        return new ThresholdMap(jacobian, [.. names, .. Enumerable.Range(1, spacings).Select(s => FormattableString.Invariant($"spacing.{s}"))]);
    }
}
