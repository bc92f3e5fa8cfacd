namespace TastingKit.Statistics;

/// <summary>What a search does to an information matrix: make it positive definite, and learn from a step.</summary>
internal static class InformationMatrix
{
    /// <summary>The factor of an information matrix made positive definite by adding to its diagonal.</summary>
    public static SmallCholesky Damped(double[,] information)
    {
        for (double share = 1e-8; share < 1e12; share *= 10.0)
        {
            var damped = (double[,])information.Clone();
            Damp(damped, share);
            if (SmallCholesky.TryFactor(damped) is { } factor)
            {
                return factor;
            }
        }

        throw new ModelException("The information matrix holds numbers that are not finite; covariates are probably on a scale of very large numbers.");
    }

    /// <summary>Adds a share of each diagonal entry to it.</summary>
    public static void Damp(double[,] information, double share)
    {
        int n = information.GetLength(0);
        double scale = 0.0;
        for (int i = 0; i < n; i++)
        {
            scale = Math.Max(scale, Math.Abs(information[i, i]));
        }

        if (!double.IsFinite(scale) || share > 1e12)
        {
            throw new ModelException("The information matrix holds numbers that are not finite; covariates are probably on a scale of very large numbers.");
        }

        for (int i = 0; i < n; i++)
        {
            information[i, i] += share * Math.Max(Math.Abs(information[i, i]), 1e-6 * scale);
        }
    }

    /// <summary>A Hessian with its sign turned.</summary>
    public static double[,] Negative(double[,] hessian)
    {
        int n = hessian.GetLength(0);
        var negative = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                negative[i, j] = -hessian[i, j];
            }
        }

        return negative;
    }

    /// <summary>The update of Broyden, Fletcher, Goldfarb and Shanno for a step of a maximiser, left out where it would lose positive definiteness.</summary>
    public static void Update(double[,] information, double[] to, double[] from, double[] gradientTo, double[] gradientFrom)
    {
        int n = to.Length;
        var s = new double[n];
        var y = new double[n];
        var ms = new double[n];
        for (int i = 0; i < n; i++)
        {
            s[i] = to[i] - from[i];
            y[i] = gradientFrom[i] - gradientTo[i];
        }

        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                ms[i] += information[i, j] * s[j];
            }
        }

        double sy = SmallMatrix.Dot(s, y);
        double sms = SmallMatrix.Dot(s, ms);
        if (sy <= 1e-4 * Math.Abs(sms) || sms <= 0.0)
        {
            return;
        }

        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                information[i, j] += y[i] * y[j] / sy - ms[i] * ms[j] / sms;
            }
        }
    }
}
