namespace TastingKit.Statistics;

/// <summary>
/// Minimises the profiled criterion over the relative covariance factors: a quasi-Newton search whose metric is the average information
/// at the current point, corrected by what the last gradients showed of the curvature it leaves out.
/// </summary>
internal sealed class VarianceSearch
{
    // Standard deviations of effects relative to the residual's that a search may start from.
    private static readonly double[] StartScales = [1, 0.15, 4];

    // A variance of zero is raised only for a gain that rounding can't feign.
    private const double LeastGain = 1e-12;

    private readonly ProfiledDeviance _deviance;
    private readonly DevianceDerivatives _derivatives;
    private readonly ResponseProducts _response;
    private readonly LinearMixedModelOptions _options;
    private readonly CancellationToken _cancellation;
    private int _evaluations;
    private int _iterations;

    public VarianceSearch(ProfiledDeviance deviance, ResponseProducts response, LinearMixedModelOptions options, CancellationToken cancellation)
    {
        _deviance = deviance;
        _derivatives = new DevianceDerivatives(deviance);
        _response = response;
        _options = options;
        _cancellation = cancellation;
    }

    /// <summary>Searches from one start, and from more where the surface may have several valleys; leaves the workspace factored at the result.</summary>
    /// <param name="start">A start that is likely close, or null for the usual ones.</param>
    public (double[] Parameters, VarianceParameters Canonical, Convergence Record) Run(VarianceParameters? start = null)
    {
        var geometry = _deviance.Geometry;
        if (geometry.ParameterCount == 0)
        {
            _deviance.Evaluate([], _response);
            return ([], VarianceParameters.Canonical(geometry, []), new Convergence(true, "There is no variance parameter to search for.", 0, 1, 1, 0, 0));
        }

        Outcome best = Search(start ?? VarianceParameters.Identity(geometry, StartScales[0]));
        int starts = 1;
        bool hasCorrelations = geometry.Groups.Any(group => group.Terms.Any(term => term.Width > 1 && !term.HasCommonVariance));
        bool isHard = !best.HasConverged || start is null && (best.Point.IsSingular || hasCorrelations);
        if (isHard)
        {
            foreach (double scale in StartScales.AsSpan(1, hasCorrelations ? StartScales.Length - 1 : 1))
            {
                Outcome other = Search(VarianceParameters.Identity(geometry, scale));
                starts++;
                if (other.Value < best.Value - 1e-9 * (1 + Math.Abs(best.Value)) || (other.HasConverged && !best.HasConverged && other.Value <= best.Value + 1e-9)) best = other;
            }
        }

        double[] exact = best.Point.Exact();
        _deviance.Evaluate(exact, _response);
        _evaluations++;
        return (exact, best.Point, new Convergence(best.HasConverged, best.Reason, _iterations, _evaluations, starts, best.LargestGradient, best.PredictedDecrease));
    }

    private Outcome Search(VarianceParameters point)
    {
        double value = Evaluate(point);
        double[]? previousStep = null, previousGradient = null;
        int[] previousFree = [];
        double largest = double.PositiveInfinity, predicted = double.PositiveInfinity;
        double[,]? correction = null;
        int idle = 0;
        bool hasCleaned = false;
        for (int iteration = 0; iteration < _options.MaximumIterations; iteration++)
        {
            _cancellation.ThrowIfCancellationRequested();
            _iterations++;
            _derivatives.Update();
            int[] free = point.Free;
            double[] gradient = Array.ConvertAll(free, i => _derivatives.Gradient[i]);
            double[,] information = _derivatives.Curvature(free);
            bool sameFree = free.AsSpan().SequenceEqual(previousFree);
            correction = sameFree && previousStep is not null ? SecantCorrection(information, correction, previousStep, gradient, previousGradient!) : null;
            double[] step = Step(information, correction, gradient);
            largest = gradient.Length == 0 ? 0 : gradient.Max(Math.Abs);
            predicted = -0.5 * SmallMatrix.Dot(gradient, step);
            if (predicted <= _options.Tolerance)
            {
                var raised = Raise(point, value);
                if (raised is null) return new Outcome(point, value, true, "The criterion can't be lowered further.", largest, predicted);
                point = raised.Value.Point;
                value = raised.Value.Value;
                (previousStep, correction) = (null, null);
                continue;
            }

            var next = LineSearch(point, free, gradient, step, value, predicted);
            idle = next is null || next.Value.Value > value - Noise(value) ? idle + 1 : 0;
            if (next is null || idle > 3)
            {
                // Between a small column and none lies nothing that the criterion can tell apart.
                if (!hasCleaned && point.WithoutSmallColumns() is { } cleaned)
                {
                    hasCleaned = true;
                    double reached = Evaluate(cleaned);
                    if (reached <= value + 1e-10 * (1 + Math.Abs(value))) (point, value) = (cleaned, reached);
                    else Evaluate(point);
                    (previousStep, correction, idle) = (null, null, 0);
                    continue;
                }

                bool atRounding = predicted < 1e-6;
                return new Outcome(point, value, atRounding, atRounding ? "The criterion can't be lowered further in double precision." : "No lower value was found along the search direction.", largest, predicted);
            }

            double[] moved = Array.ConvertAll(free, i => next.Value.Point.Values[i] - point.Values[i]);
            (previousStep, previousGradient, previousFree) = (IsAlong(moved, step) ? moved : null, gradient, free);
            (point, value) = next.Value;
        }

        return new Outcome(point, value, false, $"Stopped after {_options.MaximumIterations} iterations.", largest, predicted);
    }

    // Two values of the criterion differ by rounding alone when less lies between them.
    private static double Noise(double value) => 8e-13 * (1 + Math.Abs(value));

    // A reflected step says nothing of the curvature along the way.
    private static bool IsAlong(double[] moved, double[] step)
    {
        double length = SmallMatrix.Dot(moved, step) / SmallMatrix.Dot(step, step);
        for (int i = 0; i < step.Length; i++)
        {
            if (Math.Abs(moved[i] - length * step[i]) > 1e-6 * (Math.Abs(moved[i]) + Math.Abs(length * step[i])) + 1e-12) return false;
        }

        return true;
    }

    private double Evaluate(VarianceParameters point)
    {
        _evaluations++;
        return _deviance.Evaluate(point.Values, _response);
    }

    private (VarianceParameters Point, double Value)? Raise(VarianceParameters point, double value)
    {
        if (!point.IsSingular) return null;
        for (double amount = 0.3; amount > 2 * VarianceParameters.Floor; amount /= 5)
        {
            VarianceParameters? raised = point.Raised(_derivatives, amount);
            if (raised is null) return null;
            double trial = _deviance.Evaluate(raised.Values, _response);
            _evaluations++;
            if (trial < value - LeastGain * (1 + Math.Abs(value))) return (raised, trial);
            Evaluate(point);
            _derivatives.Update();
        }

        return null;
    }

    private (VarianceParameters Point, double Value)? LineSearch(VarianceParameters point, int[] free, double[] gradient, double[] step, double value, double predicted)
    {
        double slope = SmallMatrix.Dot(gradient, step);
        double longest = 0;
        for (int i = 0; i < step.Length; i++) longest = Math.Max(longest, Math.Abs(step[i]) / (1 + Math.Abs(point.Values[free[i]])));
        double length = Math.Min(1, 3 / longest);
        double noise = Noise(value);
        for (int attempt = 0; attempt < 30; attempt++)
        {
            var trial = (double[])point.Values.Clone();
            for (int i = 0; i < free.Length; i++) trial[free[i]] += length * step[i];
            var candidate = VarianceParameters.Canonical(_deviance.Geometry, trial);
            double reached = Evaluate(candidate);
            if (reached <= value + 1e-4 * length * slope || (predicted < 1e-6 && reached <= value + noise)) return (candidate, reached);
            double curve = 2 * (reached - value - slope * length);
            double best = double.IsFinite(reached) && curve > 0 ? -slope * length * length / curve : 0.25 * length;
            length = Math.Clamp(best, 0.1 * length, 0.5 * length);
        }

        return null;
    }

    // What the average information leaves out of the curvature, learnt from the last step by a symmetric rank-one formula.
    private static double[,]? SecantCorrection(double[,] information, double[,]? correction, double[] step, double[] gradient, double[] previous)
    {
        int n = step.Length;
        var residual = new double[n];
        double along = 0, size = 0, residualSize = 0;
        for (int i = 0; i < n; i++)
        {
            double expected = 0;
            for (int j = 0; j < n; j++) expected += (information[i, j] + (correction?[i, j] ?? 0)) * step[j];
            residual[i] = gradient[i] - previous[i] - expected;
            along += residual[i] * step[i];
            size += step[i] * step[i];
            residualSize += residual[i] * residual[i];
        }

        if (Math.Abs(along) < 1e-8 * Math.Sqrt(size * residualSize)) return correction;
        var updated = new double[n, n];
        for (int i = 0; i < n; i++)
            for (int j = 0; j < n; j++) updated[i, j] = (correction?[i, j] ?? 0) + residual[i] * residual[j] / along;
        return updated;
    }

    private static double[] Step(double[,] information, double[,]? correction, double[] gradient)
    {
        int n = gradient.Length;
        double[] step = Array.ConvertAll(gradient, g => -g);
        if (n == 0) return step;
        if (correction is not null)
        {
            var metric = (double[,])information.Clone();
            for (int i = 0; i < n; i++)
                for (int j = 0; j < n; j++) metric[i, j] += correction[i, j];
            // Where the correction overwhelms the information it is not to be believed.
            bool isSafe = true;
            for (int i = 0; i < n; i++) isSafe &= metric[i, i] > 0.2 * information[i, i];
            if (isSafe && SmallMatrix.TryFactor(metric))
            {
                SmallMatrix.SolveFactored(metric, step);
                return step;
            }
        }

        for (double ridge = 1e-12; ; ridge = Math.Max(ridge * 100, 1e-10))
        {
            var metric = (double[,])information.Clone();
            for (int i = 0; i < n; i++) metric[i, i] += ridge * (1 + Math.Abs(metric[i, i]));
            if (!SmallMatrix.TryFactor(metric)) continue;
            SmallMatrix.SolveFactored(metric, step);
            return step;
        }
    }

    private readonly record struct Outcome(VarianceParameters Point, double Value, bool HasConverged, string Reason, double LargestGradient, double PredictedDecrease);
}
