namespace TastingKit.Statistics;

public sealed partial class LinearMixedModelFit
{
    /// <summary>
    /// Draws variance parameters, fixed coefficients and random effects jointly, for probabilities of anything that depends on several of them at once: ranks, extremes, exceedances.
    /// </summary>
    /// <param name="count">Number of draws.</param>
    /// <param name="seed">The same seed gives the same draws on any machine and any number of cores.</param>
    /// <param name="options">The prior and the number of proposals, or null for the usual ones.</param>
    /// <param name="progress">Is told the share of the work that is done, on any thread, never less than before; null for nobody.</param>
    /// <param name="cancellationToken">Stops between proposals.</param>
    /// <exception cref="OperationCanceledException">The drawing was cancelled.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The count or an option is out of range.</exception>
    public JointDraws DrawJoint(int count, ulong seed, DrawOptions? options = null, IProgress<double>? progress = null, CancellationToken cancellationToken = default) =>
        JointDraws.Of(this, count, seed, options ?? new DrawOptions(), new LoopWatch(progress, cancellationToken));
}
