namespace TastingKit.Statistics;

/// <summary>
/// The log-probability of one row's category and its derivatives in what the row's parameters act on: the upper and the
/// lower threshold, the location η, and κ, the logarithm of the scale.
/// </summary>
/// <remarks>
/// With a and b the standardised thresholds, log p = log[F(a) − F(b)]. For the logistic distribution this is
/// log F(a) + log(1 − F(b)) + log(1 − e^(b−a)), whose derivatives involve no difference of nearly equal numbers.
/// </remarks>
internal struct CategoryDerivatives
{
    public double Log;
    public double Hi;
    public double Lo;
    public double Eta;
    public double Kappa;
    public double EtaHi;
    public double EtaLo;
    public double EtaEta;
    public double EtaKappa;
    public double EtaEtaHi;
    public double EtaEtaLo;
    public double EtaEtaEta;
    public double EtaEtaKappa;
    public double HiHi;
    public double HiLo;
    public double LoLo;
    public double HiKappa;
    public double LoKappa;
    public double KappaKappa;

    /// <summary>Only the log-probability and its first two derivatives in the location: what a search for modes needs.</summary>
    /// <param name="link">The latent distribution.</param>
    /// <param name="hi">The upper threshold, plus infinity above the last category.</param>
    /// <param name="lo">The lower threshold, minus infinity below the first category.</param>
    /// <param name="gap">1 − e^(−(hi − lo)/scale), which only the logistic distribution uses.</param>
    /// <param name="eta">The location.</param>
    /// <param name="inverseScale">One over the scale.</param>
    /// <param name="slope">The first derivative.</param>
    /// <param name="curvature">The second derivative.</param>
    /// <returns>The log-probability.</returns>
    public static double LogAndSlopes(OrdinalLink link, double hi, double lo, double gap, double eta, double inverseScale, out double slope, out double curvature)
    {
        if (link == OrdinalLink.Probit)
        {
            var d = default(CategoryDerivatives);
            Evaluate(link, hi, lo, gap, eta, inverseScale, ref d);
            slope = d.Eta;
            curvature = d.EtaEta;
            return d.Log;
        }

        double below = 1.0;
        double above = 1.0;
        double first = 0.0;
        double second = 0.0;
        if (!double.IsPositiveInfinity(hi))
        {
            (double f, double complement) = Logistic((hi - eta) * inverseScale);
            below = f;
            first = complement;
            second = f * complement;
        }

        if (!double.IsNegativeInfinity(lo))
        {
            (double f, double complement) = Logistic((lo - eta) * inverseScale);
            above = complement;
            first -= f;
            second += f * complement;
        }

        slope = -first * inverseScale;
        curvature = -second * inverseScale * inverseScale;
        return PortableMath.Log(below * above * gap);
    }

    /// <summary>The part of a category's logistic probability that its width alone decides: 1 − e^(−(hi − lo)/scale).</summary>
    public static double Gap(double hi, double lo, double inverseScale) => OneMinusExp((hi - lo) * inverseScale);

    /// <summary>Everything at once. Infinite thresholds are those below the first and above the last category.</summary>
    public static void Evaluate(OrdinalLink link, double hi, double lo, double gap, double eta, double inverseScale, ref CategoryDerivatives d)
    {
        bool top = double.IsPositiveInfinity(hi);
        bool bottom = double.IsNegativeInfinity(lo);
        double a = top ? 0.0 : (hi - eta) * inverseScale;
        double b = bottom ? 0.0 : (lo - eta) * inverseScale;

        // Derivatives of log p in a and b: first, second, and the sums of second and third ones that η takes.
        double la;
        double lb;
        double lab;
        double sa;
        double sb;
        double ta;
        double tb;
        if (link == OrdinalLink.Logit)
        {
            LogisticTerms(a, b, top, bottom, gap, out d.Log, out la, out lb, out lab, out sa, out sb, out ta, out tb);
        }
        else
        {
            NormalTerms(a, b, top, bottom, out d.Log, out la, out lb, out lab, out sa, out sb, out ta, out tb);
        }

        double s1 = inverseScale;
        double s2 = s1 * s1;
        double s3 = s2 * s1;
        double laa = sa - lab;
        double lbb = sb - lab;
        d.Hi = la * s1;
        d.Lo = lb * s1;
        d.Eta = -(la + lb) * s1;
        d.Kappa = -a * la - b * lb;
        d.HiHi = laa * s2;
        d.HiLo = lab * s2;
        d.LoLo = lbb * s2;
        d.HiKappa = -(la + a * laa + b * lab) * s1;
        d.LoKappa = -(lb + a * lab + b * lbb) * s1;
        d.KappaKappa = a * la + b * lb + a * a * laa + 2.0 * a * b * lab + b * b * lbb;
        d.EtaHi = -sa * s2;
        d.EtaLo = -sb * s2;
        d.EtaEta = (sa + sb) * s2;
        d.EtaKappa = (la + lb + a * sa + b * sb) * s1;
        d.EtaEtaHi = ta * s3;
        d.EtaEtaLo = tb * s3;
        d.EtaEtaEta = -(ta + tb) * s3;
        d.EtaEtaKappa = -(2.0 * (sa + sb) + a * ta + b * tb) * s2;
    }

    private static void LogisticTerms(double a, double b, bool top, bool bottom, double gap, out double log, out double la, out double lb,
        out double lab, out double sa, out double sb, out double ta, out double tb)
    {
        double below = 1.0;
        la = sa = ta = 0.0;
        if (!top)
        {
            (double f, double complement) = Logistic(a);
            below = f;
            la = complement;
            sa = -f * complement;
            ta = sa * (complement - f);
        }

        double above = 1.0;
        lb = sb = tb = 0.0;
        if (!bottom)
        {
            (double f, double complement) = Logistic(b);
            above = complement;
            lb = -f;
            sb = -f * complement;
            tb = sb * (complement - f);
        }

        lab = 0.0;
        if (!top && !bottom)
        {
            double r = (1.0 - gap) / gap;
            la += r;
            lb -= r;
            lab = r * (1.0 + r);
        }

        log = PortableMath.Log(below * above * gap);
    }

    private static void NormalTerms(double a, double b, bool top, bool bottom, out double log, out double la, out double lb,
        out double lab, out double sa, out double sb, out double ta, out double tb)
    {
        double p = NormalProbability(a, b, top, bottom);
        log = p > 0.0 ? PortableMath.Log(p) : double.NegativeInfinity;
        la = top ? 0.0 : StandardNormal.Density(a) / p;
        lb = bottom ? 0.0 : -StandardNormal.Density(b) / p;
        lab = -la * lb;
        sa = -a * la - la * la + lab;
        sb = -b * lb - lb * lb + lab;
        double laab = lab * (-a - 2.0 * la);
        double labb = lab * (-b - 2.0 * lb);
        ta = la * (a * a - 1.0 + la * (3.0 * a + 2.0 * la)) + 2.0 * laab + labb;
        tb = lb * (b * b - 1.0 + lb * (3.0 * b + 2.0 * lb)) + 2.0 * labb + laab;
    }

    // Differences are taken in the lower tail, where probabilities keep their digits.
    private static double NormalProbability(double a, double b, bool top, bool bottom)
    {
        if (top)
        {
            return StandardNormal.CumulativeProbability(-b);
        }

        if (bottom)
        {
            return StandardNormal.CumulativeProbability(a);
        }

        return b > 0.0
            ? StandardNormal.CumulativeProbability(-b) - StandardNormal.CumulativeProbability(-a)
            : StandardNormal.CumulativeProbability(a) - StandardNormal.CumulativeProbability(b);
    }

    private static (double Value, double Complement) Logistic(double x)
    {
        double e = PortableMath.Exp(-Math.Abs(x));
        double large = 1.0 / (1.0 + e);
        return x >= 0.0 ? (large, e * large) : (e * large, large);
    }

    private static double OneMinusExp(double x) => double.IsPositiveInfinity(x) ? 1.0 : x < 1e-3
        ? x * (1.0 - 0.5 * x * (1.0 - x / 3.0 * (1.0 - 0.25 * x)))
        : 1.0 - PortableMath.Exp(-x);
}
