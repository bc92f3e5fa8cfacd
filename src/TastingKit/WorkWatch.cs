namespace TastingKit;

/// <summary>
/// Who watches work that may take long, and may end it: a log carries one (<see cref="TastingLog.WatchedBy"/>), and every analysis of
/// that log reports to it and ends when it says so. It changes no result.
/// </summary>
public abstract class WorkWatch
{
    /// <summary>Nobody watches, and nothing ends the work.</summary>
    public static WorkWatch None { get; } = new Stated(null, CancellationToken.None);

    /// <summary>
    /// Ends the work with <see cref="OperationCanceledException"/>. Work asks for it when it begins, on the thread that began it.
    /// </summary>
    public abstract CancellationToken CancellationToken { get; }

    /// <summary>A watch over all that is asked of a log from now on.</summary>
    /// <param name="progress">Is told how far the work has come, on any thread; <see langword="null"/> for nobody.</param>
    /// <param name="cancellationToken">Ends the work.</param>
    public static WorkWatch Of(IProgress<WorkProgress>? progress, CancellationToken cancellationToken = default) => new Stated(progress, cancellationToken);

    /// <summary>Tells the watch how far the work has come; called on any thread, often, and must be quick.</summary>
    public abstract void Report(WorkProgress progress);

    /// <summary>Tells the watch the share of one step of the work.</summary>
    /// <param name="doing">What the step does, as in <see cref="WorkProgress.Doing"/>.</param>
    internal IProgress<double> Step(string doing) => new StepProgress(this, doing);

    private sealed class Stated(IProgress<WorkProgress>? progress, CancellationToken cancellationToken) : WorkWatch
    {
        public override CancellationToken CancellationToken { get; } = cancellationToken;

        public override void Report(WorkProgress value) => progress?.Report(value);
    }

    // Progress<T> would post to a context, and lose its order.
    private sealed class StepProgress(WorkWatch watch, string doing) : IProgress<double>
    {
        public void Report(double value) => watch.Report(new WorkProgress(doing, value));
    }
}
