namespace TastingKit.Statistics;

/// <summary>What all other rows say of one row: a prediction, or that they can't say.</summary>
public abstract record LeaveOneOut
{
    private protected LeaveOneOut(int row, double observed)
    {
        Row = row;
        Observed = observed;
    }

    /// <summary>The row, counted from 0.</summary>
    public int Row { get; }

    /// <summary>The row's response.</summary>
    public double Observed { get; }

    /// <summary>Continues with whichever of the two it is.</summary>
    /// <param name="predicted">The other rows predict the row.</param>
    /// <param name="undetermined">The row alone determines a coefficient, so that the others can't predict it.</param>
    public T Match<T>(Func<LeaveOneOutPrediction, T> predicted, Func<LeaveOneOutUndetermined, T> undetermined)
    {
        ArgumentNullException.ThrowIfNull(predicted);
        ArgumentNullException.ThrowIfNull(undetermined);
        return this switch
        {
            LeaveOneOutPrediction prediction => predicted(prediction),
            LeaveOneOutUndetermined none => undetermined(none),
            _ => throw new InvalidOperationException("There are two kinds only."),
        };
    }
}

/// <summary>The predictive distribution of a row given all the others, normal, at the variance parameters estimated from all rows.</summary>
public sealed record LeaveOneOutPrediction : LeaveOneOut
{
    internal LeaveOneOutPrediction(int row, double observed, double mean, double standardDeviation) : base(row, observed)
    {
        Mean = mean;
        StandardDeviation = standardDeviation;
    }

    /// <summary>Mean of the predictive distribution, in the response's unit.</summary>
    public double Mean { get; }

    /// <summary>Its standard deviation: the row's own residual, its effects and what the fixed part is uncertain by.</summary>
    public double StandardDeviation { get; }

    /// <summary>How many standard deviations the row lies above its prediction.</summary>
    public double Standardised => (Observed - Mean) / StandardDeviation;
}

/// <summary>A row that alone determines a coefficient of the fixed part.</summary>
public sealed record LeaveOneOutUndetermined : LeaveOneOut
{
    internal LeaveOneOutUndetermined(int row, double observed) : base(row, observed)
    {
    }
}
